import { type Batch, plannedLitres } from './batch.js';
import type { Judgement } from './judge.js';

/** What makes a batch what it was to be, or so many times of it, where no programme says what the plants want. */
export interface Completion {
  /** How many batches it then is. */
  batches: number;
  add: { name: string; unit: 'g' | 'mL'; amount: number }[];
  /** Litres that it is filled up to; null where they are in already. */
  fillTo: number | null;
}

/** From what was said alone: of one way, which no reading contradicts. Nothing is poured off; what is too much sets the size. */
export function completionOf(batch: Batch, { told }: Judgement): Completion | null {
  if (told === null || told.ways.length !== 1 || told.agrees === false) return null;
  const { slips } = told.ways[0]!;
  if (slips.length === 0 || slips.some(({ kind }) => kind === 'water')) return null;
  const factor = (item: number): number =>
    slips.reduce((times, slip) => (slip.kind === 'item' && slip.item === item ? times * slip.factor : times), 1);
  const meant = plannedLitres(batch);
  const litres = slips.reduce(
    (now, slip) =>
      slip.kind === 'litres' ? slip.litres : slip.kind === 'topping' ? now * (batch.items.at(-1)?.full ?? 1) : now,
    batch.litres as number,
  );
  const batches = Math.max(1, litres / meant, ...batch.items.map((_, i) => factor(i)));
  const add = batch.items.flatMap(({ product, planned }, i) => {
    const amount = (batches - factor(i)) * planned;
    return amount > HARDLY * planned ? [{ name: product.name, unit: product.composition.per, amount }] : [];
  });
  const level = batches * meant;
  return { batches, add, fillTo: level > litres * (1 + HARDLY) ? level : null };
}

/** Less is as good as there. */
const HARDLY = 0.02;
