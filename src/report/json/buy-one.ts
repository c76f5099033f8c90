import type * as z from 'zod';
import type { OnePurchaseResult } from '../../purchase/one/one-types.js';
import type { buyOneShape } from '../buy-one-shape.js';
import { labelSays } from '../says/packs.js';
import { purchaseNoteSays } from '../says/purchase.js';
import { failuresJson, statusOfNone } from './buy.js';
import { careJson } from './mix.js';
import { apartOf, oneJson } from './one.js';
import { proofJson } from './proof.js';

/** What `buy --one --json` prints. */
export function buyOneJson(result: OnePurchaseResult): z.infer<typeof buyOneShape> {
  const { currency, weeks, plan, market } = result;
  const head = { schema: 'velamen.buy-one/1' as const, currency, weeks, plan, market };
  const end = {
    notes: result.notes.map(purchaseNoteSays),
    ...careJson(result.cautions),
    proof: proofJson(result.proof),
  };
  if (result.status !== 'made')
    return { ...head, ...NOTHING, status: statusOfNone(result), failures: failuresJson(result), ...end };
  const { packs, spend, waterCost, total, stock, laterYears, one, apart, forbidden, isFewest, separate } = result;
  return {
    ...head,
    status: result.proof.verdict === 'optimal' ? 'optimal' : 'uncertified',
    packs,
    spend,
    waterCost,
    total,
    stock,
    laterYears,
    one: oneJson(one),
    apart: apart.map(apartOf),
    forbidden,
    isFewest,
    separate,
    lookFor: result.lookFor.map((label) => ({ ...label, says: labelSays(label) })),
    failures: [],
    ...end,
  };
}

const NOTHING = {
  packs: [],
  spend: 0,
  waterCost: 0,
  total: 0,
  stock: [],
  laterYears: null,
  one: null,
  apart: [],
  forbidden: [],
  isFewest: false,
  separate: null,
  lookFor: [],
};
