import type { Beside, Given, GivenMade } from '../blend/given-types.js';
import type { Measure } from '../dose/measure.js';
import type { PlannedItem } from '../dose/plan-types.js';
import { doesHarm } from '../feed/grade.js';
import type { FeedHeader } from '../feed/results.js';
import { figure, money } from './figures.js';
import { waterText } from './mix.js';
import { type Block, heading, list, paragraph, section, table } from './sheet.js';
import { assumedSays, farthestSays, nearSays, sureSays } from './says/given.js';
import { missSays } from './says/limits.js';
import { spoiledSays } from './says/sureness.js';
import { bottleSteps, bottleTitle } from './says/way-out.js';
import { volumeText } from './volume.js';

/** What the feed is, in one line: how near, and how many cans of a hundred keep its limits. */
export function givenTitle({ feed, given }: GivenMade): string {
  if (given.plan.status !== 'kept') return `${feed.name}: your tools cannot measure it so that every limit holds`;
  return `${feed.name}: ${nearSays(given.near)}; ${sureSays(given.sure)}`;
}

/** The answer of the first screen: what to measure, what is short, and what a few cents would buy. */
export function givenBlocks({ feed, given, waters }: GivenMade): Block[] {
  const { plan } = given;
  const heads = ['', `for ${volumeText(plan.batchLitres)}`, '>per can'];
  const rows = plan.items.map(({ product, chosen }) => [
    product.name || product.id,
    chosen.words,
    costOf(product.price, product.pack, chosen, feed),
  ]);
  for (const water of waters.filter(({ costPerLitre }) => costPerLitre > 0)) {
    rows.push([
      water.name,
      volumeText(water.share * plan.batchLitres),
      money(water.costPerLitre * plan.batchLitres, feed.currency),
    ]);
  }
  const short = [...spoiledSays(given.sure), ...farthestSays(given.near), ...given.custom.map(missSays)];
  const assumed = assumedSays(given.assumed, plan.batchLitres);
  return [
    heading(goesIn(plan)),
    table(heads, rows),
    ...bottleBlocks(plan, waters),
    ...assumed.map((line) => paragraph(line)),
    ...(short.length === 0 ? [] : [list(short)]),
    ...besideBlocks(besideRows(given, feed)),
  ];
}

/** Doses that break a limit are no recipe. */
function goesIn(plan: Given['plan']): string {
  if (plan.status === 'kept') return 'What goes in, in this order';
  return plan.violations.some(({ limit }) => doesHarm(limit))
    ? 'What comes nearest; not to be fed'
    : 'What comes nearest, in this order';
}

/** How the bottles are made that doses are taken from. */
export const bottleBlocks = ({ items }: Given['plan'], waters: GivenMade['waters']): Block[] =>
  items.flatMap(({ product: { id, name, form }, chosen: { bottle } }) =>
    bottle ? section(bottleTitle(name || id), bottleSteps(name || id, bottle, { water: waterText(waters), form })) : [],
  );

const costOf = (
  price: number | undefined,
  pack: number | undefined,
  { amount }: Pick<Measure, 'amount'>,
  { currency }: FeedHeader,
): string => (price === undefined || !pack ? 'price unknown' : money((amount * price) / pack, currency));

/** What giving up nearness would save, and what going all the way would cost: a table of words, null where nobody worked it out. */
export function besideRows(
  { beside, litresPerYear, plan }: Pick<Given, 'beside' | 'litresPerYear' | 'plan'>,
  { currency }: Pick<FeedHeader, 'currency'>,
): { heads: string[]; rows: string[][]; note: string | null; yearLitres: number } | null {
  const { bare, own, closest } = beside;
  if (bare === null && closest === null) return null;
  // coarse tools may come no nearer than this feed: one column then stands for both
  const isClosest = closest === own;
  const columns = isClosest ? [bare, own] : [bare, own, closest];
  const row = (name: string, of: (one: Beside) => string): string[] => [
    name,
    ...columns.map((one) => (one === null ? '' : of(one))),
  ];
  const year = litresPerYear ?? plan.batchLitres * CANS_A_YEAR;
  return {
    heads: ['', 'bare', 'this feed', ...(isClosest ? [] : ['closest'])],
    yearLitres: year,
    note: isClosest ? 'Nearer than this feed your hands come with nothing on this shelf.' : null,
    rows: [
      row('a can', ({ costPerLitre }) => money(costPerLitre * plan.batchLitres, currency)),
      row(litresPerYear === null ? 'a year, a can a week' : 'a year', ({ costPerLitre }) =>
        money(costPerLitre * year, currency),
      ),
      row('farthest from its aim', ({ largestMiss }) =>
        largestMiss === null ? '' : `${largestMiss.element}, ${figure(100 * largestMiss.share)} %`,
      ),
      row('cans of 100 that keep the limits', ({ share }) => `${Math.floor(100 * share + 1e-9)}`),
      row('products', ({ items }) => `${items}`),
    ],
  };
}

/** Heading of that table. */
export const BESIDE = 'What a few cents buy';

/** That table as blocks. */
export function besideBlocks(rows: ReturnType<typeof besideRows>): Block[] {
  if (rows === null) return [];
  const [first, ...others] = rows.heads;
  return [
    heading(BESIDE),
    table([first!, ...others.map((head) => `>${head}`)], rows.rows),
    ...(rows.note === null ? [] : [paragraph(rows.note)]),
  ];
}

/** Where nobody says how much is used. */
const CANS_A_YEAR = 52;

/** `0.46 g`, `2 level 1/4 US tsp`, the chosen measure of each item, by its id. */
export const measureOf = (items: readonly PlannedItem[], id: string): PlannedItem['chosen'] | undefined =>
  items.find(({ product }) => product.id === id)?.chosen;
