import type { Assumed } from '../../report/start-assumed.js';
import { parseAmount } from '../../units/index.js';
import type { KitWords } from '../options/kit.js';
import type { StartLabel } from './start-label.js';

/** The batch where nobody told it: what the largest can or jug of the kit holds, and 4 L without one. */
export function usualBatch(kit: KitWords | undefined): Extract<Assumed, { of: 'batch' }> {
  const volumes = (kit?.cans ?? []).flatMap((text) => {
    const read = parseAmount(text);
    return read.ok && read.value.kind === 'volume' ? [{ text, millilitres: read.value.millilitres }] : [];
  });
  const [largest] = volumes.sort((a, b) => b.millilitres - a.millilitres);
  return { of: 'batch', batch: largest?.text ?? '4 L', ofKit: largest !== undefined };
}

/**
 * The money of the bench: what was told, else that of the first price. A $ is of the bench where that counts dollars, else of the US; the
 * price says so itself where the bench counts another money.
 */
export function currencyOf(
  labels: readonly StartLabel[],
  told: string | undefined,
): { currency: string | undefined; assumed: Assumed[] } {
  const first = labels.find(({ currency }) => currency !== undefined)?.currency;
  const currency = told ?? (first === '$' ? 'USD' : first);
  for (const { cells, currency: own } of labels)
    if (own === '$' && currency !== undefined && !DOLLARS.test(currency.trim()))
      cells.set('price', `${cells.get('price')} USD`);
  const isTaken = told === undefined && first === '$';
  return { currency, assumed: isTaken ? [{ of: 'currency', currency: 'USD' }] : [] };
}

const DOLLARS = /^(?:\$|USD|CAD|AUD|NZD|SGD|HKD|TWD|dollars?)$/i;
