import type { Kit } from '../catalog/bench-types.js';
import type { PowderKnown } from '../label/product.js';
import { formatNumber } from '../units/index.js';
import type { Chosen, OpenItem } from './choose.js';
import { bulkDensityOf } from './density.js';
import { NOTICED } from './limits.js';
import type { DoseProof } from './plan-types.js';
import type { Tool } from './tools.js';

/** What a person should know about how the doses can be measured. */
export function notesOf(items: readonly OpenItem[], tools: readonly Tool[], known: readonly PowderKnown[]): string[] {
  const notes: string[] = [];
  if (tools.every((tool) => tool.assumed))
    notes.push(
      'The bench names no kit: amounts are given to 0.01 g and 0.1 mL. Name your spoons, scale and syringe for more.',
    );
  const spoons = tools.some((tool) => tool.kind === 'spoon');
  for (const { product, unmeasured } of items) {
    const bulk = bulkDensityOf(product, known);
    if (unmeasured && product.form === 'powder') {
      notes.push(
        spoons
          ? `${product.id}: its bulk density is unknown, so no spoon can measure it. Weigh ten level spoons on any kitchen scale and put bulk_density on the shelf, or calibrate with the pen; until then weigh it.`
          : `${product.id}: nothing in the kit measures a powder; weigh it on a borrowed scale, or add spoons or a scale to the kit.`,
      );
    } else if (unmeasured) {
      notes.push(`${product.id}: nothing in the kit measures a liquid; use a syringe, and add it to the kit.`);
    } else if (spoons && product.form === 'powder' && bulk === null) {
      notes.push(
        `${product.id}: its bulk density is unknown, so no spoon is offered. Weigh ten level spoons, or calibrate with the pen.`,
      );
    } else if (spoons && bulk?.from === 'catalog') {
      notes.push(
        `${product.id}: a level spoon is taken at the catalog's ${formatNumber(bulk.gramsPerMillilitre, 3)} g/mL, which varies by a fifth: weigh ten level spoons of yours.`,
      );
    }
  }
  return notes;
}

/** A batch that no can holds. */
export function canNotes({ cans }: Kit, batchLitres: number): string[] {
  const largest = largestCan(cans);
  if (largest === null || batchLitres * 1000 <= largest.millilitres * 1.001) return [];
  return [
    `The batch of ${formatNumber(batchLitres, 4)} L is more than the largest can holds (${largest.label}): mix it in parts, or give the feed a smaller batch.`,
  ];
}

/** The can that holds most, or null where the kit names none. */
export function largestCan(cans: Kit['cans']): NonNullable<Kit['cans']>[number] | null {
  return [...(cans ?? [])].sort((a, b) => b.millilitres - a.millilitres)[0] ?? null;
}

/** Why nothing closer exists. */
export function proofOf(chosen: Chosen, items: readonly OpenItem[]): DoseProof {
  const measures = items.reduce((sum, item) => sum + item.measures.length, 0);
  const combinations = items.reduce((product, item) => product * item.measures.length, 1);
  const off = items.length === 0 ? 0 : (100 * chosen.deviation) / items.length;
  const what = `${measures} measures in ${count(combinations)} combinations`;
  const how = {
    all: `every combination of ${what} was tried, or passed over because it breaks a limit or is farther from the blend`,
    'best found': `the best found among ${what}; the search did not end, so a closer one may exist`,
  }[chosen.by];
  const result = resultOf(chosen, formatNumber(off, 2));
  return { by: chosen.by, measures, combinations, deviation: chosen.deviation, sentence: `${result}: ${how}` };
}

function resultOf({ kept = 'limits', violation }: Chosen, off: string): string {
  const missed = `${formatNumber(100 * violation, 2)} % of a limit`;
  if (kept === 'less than the blend')
    return `no doses keep every limit that the nearest feed keeps; these miss least beyond it, by at most ${missed}`;
  if (kept === 'what the blend keeps')
    return violation > NOTICED
      ? `no doses that keep every limit that the nearest feed keeps are nearer to the others; these miss them by at most ${missed} more`
      : `no doses that keep every limit that the nearest feed keeps, and miss no other by more than ${formatNumber(100 * NOTICED)} % of it beyond that, are closer to it (${off} % off on average)`;
  return violation === 0
    ? `no doses that keep every limit are closer to the blend (${off} % off on average)`
    : `no doses keep every limit; these miss least, by at most ${missed}`;
}

const count = (n: number): string => (n < 1e6 ? String(n) : `${formatNumber(n / 1e6, 3)} million`);
