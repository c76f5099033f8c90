import type { LimitPrice, Prices, ProductPrice } from '../feed/results.js';
import { figure, money } from './figures.js';
import { type Block, heading, list, paragraph, table } from './sheet.js';
import { limitFrom, limitSays } from './says/limits.js';
import { limitPriceSays, unusedPriceSays } from './says/prices.js';

/** How many lines the short form shows of each sort: enough to act on, too few to drown the answer. */
const LIMITS = 3;
const UNUSED = 2;

/** What it costs to insist: the few lines that matter most, or all of them with their ranges. */
export function priceBlocks(prices: Prices | undefined, currency: string, all: boolean): Block[] {
  if (!prices) return [];
  return all ? everything(prices, currency) : shortForm(prices, currency);
}

function shortForm({ cost, limits, unused }: Prices, currency: string): Block[] {
  const telling = limits.filter((line) => (line.lifted?.saves ?? 0) > 0);
  const near = unused.filter((line) => line.lowest !== null && line.lowest > 0);
  const lines = [
    ...telling.slice(0, LIMITS).map((line) => limitLine(line, cost, currency)),
    ...near.slice(0, UNUSED).map((line) => `${line.id} ${unusedPriceSays(line, currency)}`),
  ];
  return lines.length === 0 ? [] : [heading('What it costs to insist (shadow prices)'), list(lines)];
}

const limitLine = (line: LimitPrice, cost: number, currency: string): string =>
  `${limitSays(line.limit)} (${limitFrom(line.limit)}): ${limitPriceSays(line, cost, currency)}`;

function everything({ cost, limits, used, unused }: Prices, currency: string): Block[] {
  const blocks: Block[] = [heading('What it costs to insist (shadow prices)')];
  blocks.push(
    limits.length === 0
      ? paragraph('The mix stands on no limit.')
      : list(limits.map((line) => limitLine(line, cost, currency))),
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
