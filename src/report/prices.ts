import type { Prices, ProductPrice } from '../feed/results.js';
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
        ['', '', '>now', '>from', '>up to'],
        used.map((line) => [
          line.id,
          packOf(line),
          priceOf(line, line.price, currency),
          line.lowest ? priceOf(line, line.lowest, currency) : 'nothing',
          line.highest === null ? 'any price' : priceOf(line, line.highest, currency),
        ]),
      ),
    );
  }
  if (unused.length > 0) {
    blocks.push(
      heading('Prices below which a product left out would come in'),
      table(
        ['', '', '>now', '>comes in below'],
        unused.map((line) => [
          line.id,
          packOf(line),
          priceOf(line, line.price, currency),
          line.lowest ? priceOf(line, line.lowest, currency) : 'never',
        ]),
      ),
    );
  }
  return blocks;
}

/** What the prices of a line are for: a pack where one is known, else a g or mL. */
function packOf({ pack, unit }: ProductPrice): string {
  return pack === null ? `1 ${unit}` : `${figure(pack)} ${unit}`;
}

function priceOf({ pack }: ProductPrice, perUnit: number, currency: string): string {
  return money(perUnit * (pack ?? 1), currency);
}
