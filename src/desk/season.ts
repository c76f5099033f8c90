import { atDoor } from '../door.js';
import type { FeedSpec } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { byName, litres } from '../units/index.js';
import { type Problem, problem } from '../problem.js';
import type { Phase } from '../programme/programme.js';
import { resolveProgramme } from '../programme/resolve.js';
import { climateOf } from '../year/climate.js';
import { compiledPractice } from '../year/compiled-practice.js';
import { planMonths } from '../year/plan-months.js';
import { seasonOf } from '../year/season.js';
import type { SeasonNote, SeasonResult } from '../year/season-types.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { noWeekly } from './buy-wishes.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { pricesInOtherCurrencies } from './currencies.js';
import { refuseTooMuch, requestOf } from './feed-requests.js';
import { feedWishes } from './feed-wishes.js';
import { type Market, marketOf } from './market.js';
import { refuseBesideOne } from './one.js';
import { type OpenBench, opened } from './opened.js';
import { boughtFirst } from './season-bought.js';
import { madeMixes, type Stage, stageKey } from './season-mixes.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/** From an order to its parcel, where nobody says (common practice, no source). */
const USUAL_LEAD = 14;

/**
 * A year of feed from the day `from` on: phase, strength and litres of each feed month by month, the doses (made once for each phase and
 * strength), flushings, what is used, when each product runs out and is ordered again, with the dates for a calendar. Amounts in g and mL,
 * money in the currency of the bench. `met` is false where a feed has no doses that keep what hurts or what plants need.
 * @throws Refusal with every problem of bench, shelf, market and wishes, and where no day is named
 */
export async function seasonFor(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<SeasonResult>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const from = collected.wish(wishes, 'from');
  if (wishes.from === undefined) collected.add(noDay());
  const leadDays = collected.wish(wishes, 'lead') ?? USUAL_LEAD;
  const market = marketOf(files, catalog, open, collected);
  collected.add(...pricesInOtherCurrencies(market.all, open.currency));
  const which = feedWishes(wishes, collected);
  if (wishes.one) refuseBesideOne(wishes, collected);
  const climate = climateOf(figuresOf(wishes, open, collected), compiledPractice.rests);
  const weekly = weeklyOf(wishes, open, collected);
  const plans = planMonths(
    open.feeds,
    climate,
    compiledPractice.rests,
    ({ name }) => weekly.get(name)?.litres ?? litres(0),
    (spec, phase) => fullNitrogen(spec, phase, catalog),
  );
  const stages = stagesOf(open, plans, collected);
  refuseTooMuch({ feeds: stages.map(({ spec }) => spec), shelf: open.shelf }, collected);
  const warnings = collected.settle();
  const bought = wishes.buy ? await boughtFirst(stages, plans, from!, open, market, catalog, which) : null;
  const due = bought === null ? stages : stages.map((stage) => onShelf(stage, bought.shelf));
  const { mixes, states } = await madeMixes(due, plans, open, which, wishes.one === true);
  const result = seasonOf({
    bench: open.bench?.name ?? '',
    from: from!,
    currency: open.currency,
    leadDays,
    climate,
    feeds: open.feeds.map((spec) => ({
      spec,
      weeklyLitres: weekly.get(spec.name)!.litres,
      weeklyAssumed: weekly.get(spec.name)!.isAssumed,
      months: plans.get(spec.name)!.map((plan, month) => ({
        state: plan.kind === 'fed' ? states(spec.name, month) : plan.kind === 'none' ? ASKED : plan,
        weeklyLitres: plan.kind === 'fed' ? plan.weeklyLitres : litres(0),
      })),
    })),
    mixes,
    shelf: withPacks(bought?.before ?? open.shelf.products, market),
    bought: bought?.packs ?? new Map(),
    notes: [...(wishes.buy && bought === null ? [{ kind: 'no purchase' } as const] : []), ...weakerPhases(stages)],
  });
  const isFine = result.notes.every(({ kind }) => kind !== 'no doses' && kind !== 'missed');
  return { met: isFine, result, warnings };
}

/** Feeds whose strength is a share of a programme that is weaker by itself. */
function weakerPhases(stages: readonly Stage[]): SeasonNote[] {
  const feeds = stages.flatMap(({ spec: { name, phase }, request }) => {
    if (request?.header.phaseFactor === undefined) return [];
    const { strength, strengthFactor, phaseFactor } = request.header;
    return [{ name, phase, strength, strengthFactor, phaseFactor }];
  });
  return feeds.length === 0 ? [] : [{ kind: 'weaker phase', feeds }];
}

const ASKED = { kind: 'none', why: 'asked' } as const;

/** What the wishes say of light, warmth and place goes before the bench. */
function figuresOf(wishes: Wishes, { bench }: OpenBench, collected: Collected) {
  const hemisphere = collected.wish(wishes, 'hemisphere');
  const light = collected.wish(wishes, 'light');
  const temperature = collected.wish(wishes, 'roomTemperature');
  return {
    ...bench?.season,
    ...(hemisphere === undefined ? {} : { hemisphere }),
    ...(light === undefined ? {} : { light }),
    ...(temperature === undefined ? {} : { temperature }),
  };
}

/** Litres a week of each feed; where only a watering is said, one of them a week. A feed without either is refused. */
function weeklyOf(wishes: Wishes, { feeds }: OpenBench, collected: Collected) {
  const wished = collected.wish(wishes, 'weekly');
  return new Map(
    feeds.map((spec) => {
      const said = wished ?? spec.weeklyLitres;
      const own = said ?? spec.wateringLitres;
      if (own === undefined && wishes.weekly === undefined) collected.add(noWeekly(spec.name, spec.where));
      return [spec.name, { litres: own ?? litres(0), isAssumed: said === undefined && own !== undefined }];
    }),
  );
}

/** mg/L of nitrogen at full strength; null where the programme has no aim for it. */
function fullNitrogen({ plants, medium }: FeedSpec, phase: Phase, catalog: Catalog): number | null {
  const read = resolveProgramme(catalog, plants, medium, phase);
  const aim = read.ok ? (read.value.bands.N?.aim ?? read.value.bands.N?.max) : undefined;
  return aim === undefined || !(aim > 0) ? null : aim;
}

/** Every feed with each phase and strength that it has in some month, once: what doses are made for, or why there are none. */
function stagesOf(open: OpenBench, plans: ReturnType<typeof planMonths>, collected: Collected): Stage[] {
  const seen = new Map<string, Stage>();
  for (const spec of open.feeds) {
    for (const plan of plans.get(spec.name)!) {
      if (plan.kind !== 'fed') continue;
      const key = stageKey(spec.name, plan.phase, plan.strength);
      if (seen.has(key)) continue;
      const own: FeedSpec = { ...spec, phase: plan.phase, strength: plan.strength };
      const full = collected.take(resolveProgramme(open.catalog, own.plants, own.medium, own.phase, own.where));
      const rest = full?.unfed;
      const request: FeedRequest | undefined =
        full === undefined || rest !== undefined ? undefined : requestOf(own, open, collected);
      seen.set(key, { key, spec: own, ...(rest === undefined ? {} : { rest }), ...(request && { request }) });
    }
  }
  return [...seen.values()];
}

const onShelf = ({ request, ...stage }: Stage, shelf: ClosedProduct[]): Stage =>
  request === undefined ? stage : { ...stage, request: { ...request, shelf } };

/** The shelf, with the packs and prices of what is for sale under the same name where it names none itself. */
const withPacks = (products: readonly ClosedProduct[], market: Market): ClosedProduct[] =>
  products.map((product) => {
    const sold = product.pack === undefined ? byName(market.all, product.id, ({ id }) => id) : undefined;
    if (sold?.pack === undefined || sold.form !== product.form) return product;
    return product.with({ pack: sold.pack, price: market.isPriced ? (product.price ?? sold.price) : undefined });
  });

const noDay = (): Problem =>
  problem(
    'no-day',
    { field: '--from' },
    'no first day',
    'the day on which the year begins',
    atDoor({ typed: 'Say --from 2026-12-01.', page: 'Choose the day in From.' }),
  );
