import { parseDosedBy } from './dosed-by.js';
import { type Catalog, findMedium, findPhase, findPlants, findProduct } from '../../catalog/catalog.js';
import { readCan, readStrength, readWeekly } from '../../catalog/feed-values.js';
import { readRecipe } from '../../advice/read-recipe.js';
import type { ReadRecipeBy } from '../../advice/recipe.js';
import type { ClosedProduct } from '../../label/closed-product.js';
import type { Product } from '../../label/product.js';
import type { Where } from '../../problem.js';
import { PHASES } from '../../programme/programme.js';
import { parseRules } from '../../programme/parse-rule.js';
import { parseDate } from './day.js';
import { parseMonths, parseWeeks } from './horizon.js';
import { JOURNAL_WISHES } from './journal-wishes.js';
import { parseCount, parseMoney, parseMostProducts, parseSeconds } from './number.js';
import type { Option } from './option.js';
import { parseWaterReading } from './pen.js';
import { type OnPen, PEN_WISHES, productId } from './pen-wishes.js';
import { SEASON_WISHES } from './season-wishes.js';
import { parseNear, parseShare, parseSure } from './share.js';
import { START_WISHES } from './start-wishes.js';
import { parseDose, parseRatio, parseTanks } from './stock.js';
import { parseStorage, parseTemperature } from './temperature.js';
import { parseJug } from './volume.js';
import { readWaters } from './water.js';

type InCatalog = { catalog: Catalog };

/**
 * Every option by which a question is put, once: its word (`atMost` is `--at-most`), its value, its meaning, its reader. Arguments, help,
 * the shell's completion, the type of `Wishes` and the table of README.md come from here, so a word means the same wherever it stands.
 */
export const WISH_OPTIONS = {
  feed: {
    value: 'NAME',
    says: 'the feed of the bench',
    usual: 'all, in the order of the file',
    choices: 'feeds',
  },
  plants: {
    value: 'GROUP',
    says: 'plant group, for example phalaenopsis or "moth orchid"',
    bench: 'feeds.*.plants',
    read: (text: string, where: Where, { catalog }: InCatalog) => findPlants(catalog, text, where),
    choices: 'plants',
  },
  medium: {
    value: 'MEDIUM',
    says: 'sphagnum, bark, coir, peat, clay or mounted',
    bench: 'feeds.*.medium',
    read: (text: string, where: Where, { catalog }: InCatalog) => findMedium(catalog, text, where),
    choices: 'media',
  },
  phase: {
    value: 'PHASE',
    says: 'growth, bloom or rest',
    usual: 'growth',
    bench: 'feeds.*.phase',
    read: (text: string, where: Where, { catalog }: InCatalog) => findPhase(catalog, text, where),
    choices: PHASES,
  },
  strength: {
    value: 'HOW',
    says: 'share of full strength ("80 %") or total nitrogen ("N 90 mg/L")',
    bench: 'feeds.*.strength',
    read: readStrength,
  },
  mix: {
    value: 'AMOUNT',
    says: 'how much is to be mixed: "4 L", "1 US gal"',
    usual: 'the batch of the feed',
    bench: 'feeds.*.batch',
    read: readCan,
  },
  measured: {
    value: 'AMOUNT',
    says: 'the water measured in the can',
    usual: 'what is to be mixed',
    read: readCan,
  },
  brim: {
    value: 'AMOUNT',
    says: 'what the can holds to the brim',
    usual: 'the smallest can of the bench that takes what is in it with 2 % to spare, else the batch fills it',
    read: readCan,
  },
  water: {
    value: 'WATER',
    says: 'a water of the catalog (rain, …) or an analysis in mg/L: "Ca=40, Mg=11, alkalinity=130"',
    usual: 'that of the bench, else rain',
    repeatable: true,
    unit: 'mg/L',
    bench: 'water',
    read: (text: string, where: Where, { catalog }: InCatalog) => readWaters([text], where, catalog),
    choices: 'waters',
  },
  currency: { value: 'CODE', says: 'money that the prices are in', bench: 'currency' },
  nh4: {
    value: 'SHARE',
    says: 'most ammonium as a share of total nitrogen: 0, "10 %" or 0.1',
    read: parseShare,
  },
  rule: {
    value: 'RULE',
    says: 'a rule of your own, for example "Ca >= 3 * Mg" or "EC <= 0.6"',
    repeatable: true,
    bench: 'feeds.*.rules',
    read: (text: string, where: Where) => parseRules([text], { owner: 'you' }, where),
  },
  with: {
    value: 'ID',
    says: 'as if this product of the catalog stood on the shelf too',
    repeatable: true,
    read: productId,
    choices: 'products',
  },
  without: { value: 'ID', says: 'as if this product were not there', repeatable: true, read: productId },
  near: {
    value: 'SHARE',
    says: 'how far main elements may be from their aims, trace elements in step: "20%" is between aim / 1.2 and aim × 1.2',
    usual: '35 %, trace elements half to double',
    read: parseNear,
  },
  closest: { says: 'as close as possible to the aims, and only then cheap' },
  one: { says: 'one mix for every feed of the bench, diluted with water for each; where one will not do, the fewest' },
  bare: { says: 'the cheapest mix inside the limits alone: not near the aims, and not made for hands' },
  atMost: {
    value: 'K',
    says: 'at most this many products; to buy, at most this many that are not on the shelf yet',
    read: parseMostProducts,
  },
  sure: {
    value: 'SHARE',
    says: 'doses that keep the limits in this share of cans: 95%',
    usual: '90 %',
    read: parseSure,
  },
  by: {
    value: 'HOW',
    says: 'how doses are had: "pen" (a spoon to start with, then pinches until the pen shows a figure), "measure" (spoons, syringe and scale alone)',
    usual: 'by measure; by the pen where the bench names one and nothing in its kit is fine enough',
    read: parseDosedBy,
    choices: ['pen', 'measure'],
  },
  prices: {
    says: 'everything about what it costs to insist (shadow prices, reduced costs): each limit that binds, each product used or left out',
  },
  temperature: {
    value: 'TEMP',
    says: 'how warm the can is, or the standard: "18 °C"',
    unit: '°C',
    read: parseTemperature,
  },
  all: { says: 'every feed of the bench, with an overview first; with --json one object for all of them' },
  catalog: { says: 'the products and salts that come with the program, instead of a shelf' },
  text: {
    value: 'TEXT',
    says: 'a printed label, in words or as a file, instead of a shelf: "Total Nitrogen (N) 12 % … Derived from: …"',
  },
  recipe: {
    value: 'RECIPE',
    says: 'what goes in, instead of a feed: "1.2 g base + 0.5 g cal in 4 L", or by the pen: "30 ppm cal, then base until 160 in 4 L"',
    read: (text: string, where: Where, { among, ...by }: { among: readonly Product[] } & ReadRecipeBy) =>
      readRecipe(text, among, by, where),
  },

  // at the sink
  date: { value: 'DATE', says: 'the day, as 2026-11-25', usual: 'a line to fill in', read: parseDate },
  readingOfWater: {
    value: 'READING',
    says: 'what the pen shows in the water alone ("0.02", "20 µS/cm", "10 ppm" on your pen); the readings follow it',
    unit: 'mS/cm',
    read: (text: string, where: Where, { scale }: OnPen) => parseWaterReading(text, scale, where),
  },

  // to buy
  weekly: {
    value: 'AMOUNT',
    says: 'how much of each feed is used in a week: "10 L"',
    usual: 'as the bench says',
    bench: 'feeds.*.weekly',
    read: readWeekly,
  },
  weeks: { value: 'N', says: 'weeks to buy for', usual: '26', read: parseWeeks },
  months: { value: 'N', says: 'months to buy for, a twelfth of 52 weeks each', read: parseMonths },
  year: { says: 'buy for a year of 52 weeks' },
  budget: {
    value: 'MONEY',
    says: 'spend at most this on packs',
    read: (text: string, where: Where, { currency }: { currency: string }) => parseMoney(text, where, currency),
  },
  ban: { value: 'ID', says: 'do not buy this product', repeatable: true, read: productId, choices: 'products' },
  need: {
    value: 'ID',
    says: 'buy at least one pack of this product',
    repeatable: true,
    read: productId,
    choices: 'products',
  },
  effort: {
    value: 'N',
    says: 'let the search take N times the usual work before it ends as "not finished"',
    usual: '1',
    read: parseCount,
  },
  seconds: {
    value: 'N',
    says: 'end after this many seconds in all, with the best so far, which then depends on how busy the machine is',
    usual: 'no clock, so that the same question has the same answer',
    read: parseSeconds,
  },
  insteadOf: {
    value: 'ID',
    says: 'what could stand in for this product of the shelf',
    read: (text: string, where: Where, { among }: { among: readonly ClosedProduct[] }) =>
      findProduct(among, text, where),
  },

  // through the year
  ...SEASON_WISHES,

  // stock bottles
  ratio: {
    value: 'RATIO',
    says: 'one part of each stock in so many parts of feed',
    usual: '1:100, or the strongest that holds',
    read: parseRatio,
  },
  dose: { value: 'RATE', says: 'the same as --ratio, as a dose of each stock: "10 mL/L"', read: parseDose },
  tanks: {
    value: 'N',
    says: '1 or 2 bottles',
    usual: 'as many as are needed',
    read: parseTanks,
    choices: ['1', '2'],
  },
  jug: { value: 'AMOUNT', says: 'how much of each stock to make', usual: '1 L', read: parseJug },
  coldest: {
    value: 'TEMP',
    says: 'the coldest it will get where the stock stands',
    usual: '10 °C',
    unit: '°C',
    read: parseStorage,
  },

  ...START_WISHES,
  ...PEN_WISHES,
  ...JOURNAL_WISHES,
} as const satisfies Record<string, Option>;
