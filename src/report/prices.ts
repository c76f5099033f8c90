import type { Prices } from '../formulation/results.js';
import { figure, money } from './figures.js';
import { type Block, heading, list, paragraph, table } from './sheet.js';

/** How many lines the short form shows of each sort: enough to act on, too few to drown the answer. */
const LIMITS = 3;
const UNUSED = 2;

/** What it costs to insist: the few lines that matter most, or all of them with their ranges. */
export function priceBlocks(prices: Prices | undefined, currency: string, all: boolean): Block[] {
  if (!prices) return [];
  return all ? everything(prices, currency) : shortForm(prices);
}

function shortForm({ limits, unused }: Prices): Block[] {
  const telling = limits.filter((line) => (line.lifted?.saves ?? 0) > 0);
  const near = unused.filter((line) => line.lowest !== null && line.lowest > 0);
  const lines = [
    ...telling.slice(0, LIMITS).map((line) => `${line.limit} (${line.from}): ${line.sentence}`),
    ...near.slice(0, UNUSED).map((line) => `${line.id} ${line.sentence}`),
  ];
  return lines.length === 0 ? [] : [heading('What it costs to insist'), list(lines)];
}

function everything({ limits, used, unused }: Prices, currency: string): Block[] {
  const per = (x: number | null, unit: string): string => (x === null ? '' : `${money(x, currency)}/${unit}`);
  const pack = (x: number | null): string => (x === null ? '' : money(x, currency));
  const blocks: Block[] = [heading('What it costs to insist')];
  blocks.push(
    limits.length === 0
      ? paragraph('The mix stands on no limit.')
      : list(limits.map((line) => `${line.limit} (${line.from}): ${line.sentence}`)),
  );
  if (used.length > 0) {
    blocks.push(
      heading('Prices between which this blend stays the cheapest'),
      table(
        ['', '>now', '>from', '>up to', '>pack', '>from', '>up to'],
        used.map((line) => [
          line.id,
          per(line.price, line.unit),
          per(line.lowest, line.unit),
          line.highest === null ? 'any price' : per(line.highest, line.unit),
          line.pack === null ? '' : `${figure(line.pack)} ${line.unit}`,
          pack(line.lowestPerPack),
          line.highest === null ? 'any price' : pack(line.highestPerPack),
        ]),
      ),
    );
  }
  if (unused.length > 0) {
    blocks.push(
      heading('Prices below which a product left out would come in'),
      table(
        ['', '>now', '>comes in below', '>pack', '>comes in below'],
        unused.map((line) => [
          line.id,
          per(line.price, line.unit),
          line.lowest ? per(line.lowest, line.unit) : 'never',
          line.pack === null ? '' : `${figure(line.pack)} ${line.unit}`,
          line.lowest ? pack(line.lowestPerPack) : 'never',
        ]),
      ),
    );
  }
  return blocks;
}
