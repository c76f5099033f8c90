import type * as z from 'zod';
import type { Comparison, PurchaseOption, PurchaseResult } from '../../purchase/types.js';
import type { FeedSubstitutes, SubstitutesResult } from '../../purchase/substitutes-types.js';
import type { buyShape, substitutesShape } from '../buy-shapes.js';
import { isFinished } from '../buy-option.js';
import { givenJson } from './given.js';
import { labelSays } from '../says/packs.js';
import { purchaseNoteSays, substitutesNotes } from '../says/purchase.js';
import { careJson, missesJson, mixJson } from './mix.js';
import { conflictJson } from './why-not.js';
import { proofJson } from './proof.js';

/** What `buy --json` prints. */
export function buyJson(result: PurchaseResult): z.infer<typeof buyShape> {
  const { currency, weeks, plan, market, cautions, proof } = result;
  const schema = 'velamen.buy/2' as const;
  const head = { schema, currency, weeks, plan, market, status: statusOf(result) };
  const end = { notes: result.notes.map(purchaseNoteSays), ...careJson(cautions), proof: proofJson(proof) };
  if (result.status === 'made') {
    const { options, lookFor, oneMoreAllowed, comparison } = result;
    return {
      ...head,
      options: options.map(optionJson),
      lookFor: lookFor.map((label) => ({ ...label, says: labelSays(label) })),
      oneMoreAllowed,
      comparison: comparison && comparisonJson(comparison),
      failures: [],
      ...end,
    };
  }
  const failures = failuresJson(result);
  return { ...head, options: [], lookFor: [], oneMoreAllowed: null, comparison: null, failures, ...end };
}

/** Which feeds fail, and why. */
export function failuresJson(
  result: Exclude<PurchaseResult, { status: 'made' }>,
): z.infer<typeof buyShape>['failures'] {
  const told = result.status === 'unfinished' ? [] : result.failures;
  return told.map(({ feed, conflict }) => ({ feed, conflict: conflict.map(conflictJson) }));
}

/** How far a purchase without options got. */
export const statusOfNone = ({
  status,
}: Exclude<PurchaseResult, { status: 'made' }>): 'infeasible' | 'uncertified' | 'unfinished' =>
  status === 'cannot' ? 'infeasible' : status === 'open' ? 'uncertified' : 'unfinished';

function statusOf(result: PurchaseResult): z.infer<typeof buyShape>['status'] {
  if (result.status !== 'made') return statusOfNone(result);
  if (!isFinished(result)) return 'unfinished';
  return result.proof.verdict === 'optimal' ? 'optimal' : 'uncertified';
}

function optionJson({
  ways,
  packs,
  spend,
  waterCost,
  total,
  feeds,
  stock,
  laterYears,
  factor,
  proof,
}: PurchaseOption): z.infer<typeof buyShape>['options'][number] {
  return {
    kind: ways[0],
    kinds: ways,
    packs,
    spend,
    waterCost,
    total,
    feeds: feeds.map(({ given, feed, litres, justMet, missed, isLost, ...mix }) => ({
      feed,
      litres,
      ...mixJson(mix),
      ...(given ? givenJson(given, mix.elements) : {}),
      justMet: missesJson(justMet),
      missed: missesJson(missed),
      isLost,
    })),
    stock,
    laterYears,
    width: factor,
    proof: proofJson(proof),
  };
}

function comparisonJson({ fewest, ...rest }: Comparison): NonNullable<z.infer<typeof buyShape>['comparison']> {
  if (fewest === null) return { ...rest, fewest };
  const { products, spend, proof } = fewest;
  return { ...rest, fewest: { products, spend, proved: proof.verdict === 'optimal' } };
}

/** What `buy --instead-of ID --json` prints. */
export function substitutesJson(result: SubstitutesResult): z.infer<typeof substitutesShape> {
  const { status, product, currency, market, feeds, cautions } = result;
  return {
    schema: 'velamen.substitutes/2',
    status,
    product,
    currency,
    market,
    feeds: feeds.map(feedJson),
    notes: substitutesNotes(result),
    ...careJson(cautions),
  };
}

function feedJson(of: FeedSubstitutes): z.infer<typeof substitutesShape>['feeds'][number] {
  const { feed } = of;
  switch (of.status) {
    case 'no feed':
      return { feed, original: null, leftOut: null, substitutes: [] };
    case 'not used':
      return { feed, original: of.original, leftOut: null, substitutes: [] };
    case 'compared':
      return {
        feed,
        original: of.original,
        leftOut: of.leftOut && { ...of.leftOut, broken: missesJson(of.leftOut.broken) },
        substitutes: of.substitutes.map((line) => ({ ...line, broken: missesJson(line.broken) })),
      };
  }
}
