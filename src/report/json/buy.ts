import type * as z from 'zod';
import type { Comparison, PurchaseOption, PurchaseResult } from '../../purchase/types.js';
import type { SubstitutesResult } from '../../purchase/substitutes-types.js';
import type { buyShape, substitutesShape } from '../buy-shapes.js';
import { cautionsJson, mixJson } from './mix.js';
import { proofJson } from './proof.js';

/** What `buy --json` prints. */
export function buyJson(result: PurchaseResult): z.infer<typeof buyShape> {
  const { currency, weeks, plan, market, notes, cautions, proof } = result;
  const schema = 'velamen.buy/1' as const;
  const head = { schema, currency, weeks, plan, market, status: statusOf(result) };
  const end = { notes, cautions: cautionsJson(cautions), proof: proofJson(proof) };
  if (result.status === 'made') {
    const { options, extras, oneMoreAllowed, comparison } = result;
    return {
      ...head,
      options: options.map(optionJson),
      extras,
      oneMoreAllowed,
      comparison: comparisonJson(comparison),
      failures: [],
      ...end,
    };
  }
  const { failures } = result;
  return { ...head, options: [], extras: [], oneMoreAllowed: null, comparison: null, failures, ...end };
}

function statusOf({ status, proof }: PurchaseResult): z.infer<typeof buyShape>['status'] {
  if (status === 'made') return proof.verdict === 'optimal' ? 'optimal' : 'uncertified';
  return status === 'cannot' ? 'infeasible' : 'uncertified';
}

function optionJson({
  packs,
  spend,
  waterCost,
  total,
  feeds,
  stock,
  closest,
  proof,
}: PurchaseOption): z.infer<typeof buyShape>['options'][number] {
  return {
    packs,
    spend,
    waterCost,
    total,
    feeds: feeds.map(mixJson),
    stock,
    closest,
    proof: proofJson(proof),
  };
}

function comparisonJson({ fewest, ...rest }: Comparison): NonNullable<z.infer<typeof buyShape>['comparison']> {
  if (fewest === null) return { ...rest, fewest };
  const { products, spend, boundBy } = fewest;
  return { ...rest, fewest: { products, spend, proved: boundBy === 'multipliers' || boundBy === 'cases' } };
}

/** What `buy --instead-of ID --json` prints. */
export const substitutesJson = (result: SubstitutesResult): z.infer<typeof substitutesShape> => ({
  ...result,
  cautions: cautionsJson(result.cautions),
});
