import { cautionsFor } from '../can/cautions.js';
import type { DosePlan } from '../dose/plan-types.js';
import { litres } from '../units/index.js';
import { compiledPractice } from './compiled-practice.js';
import { daysAfter } from './days.js';
import { eventsOf } from './events.js';
import { flushPlan } from './flush.js';
import { notesOf } from './notes.js';
import type {
  AskedFeed,
  MadeMix,
  PotsOfFeed,
  SeasonAsked,
  SeasonFeed,
  SeasonMix,
  SeasonMonth,
  SeasonResult,
} from './season-types.js';
import { yearOf } from './stocks.js';
import { storageOf } from './storage.js';
import { type FeedWeek, spansOf, type Week, WEEKS_OF_SEASON, weeksFrom } from './weeks.js';

/**
 * A year of feed from a day on: runs of weeks for each feed, use, cost and stock of each product week by week, orders, flushings and dates.
 * What is used is litres times doses, to the last digit; a week belongs to the month in which it begins.
 */
export function seasonOf(asked: SeasonAsked): SeasonResult {
  const weeks = weeksFrom(asked.from);
  const costs = asked.mixes.map((mix) => costPerLitre(mix.plan, asked));
  const inWeeks = asked.feeds.map((feed) => weeks.map((week) => feedWeek(feed, week, asked, costs)));
  const feeds = asked.feeds.map((feed, f) => feedOf(feed, weeks, inWeeks[f]!));
  const perWeek = (id: string): number[] => weeks.map((_, w) => usedIn(w, id, asked, inWeeks));
  const used = asked.shelf
    .map((product) => ({ product, perWeek: perWeek(product.id), bought: asked.bought.get(product.id) ?? 0 }))
    .filter((one) => one.bought > 0 || one.perWeek.some((x) => x > 0));
  const years = used.map((one) => yearOf(one, weeks, asked.leadDays));
  const orders = years.flatMap((year) => year.orders).sort((a, b) => compare(a.day, b.day) || compare(a.id, b.id));
  const mixes = asked.mixes.map((mix, m) => mixOf(mix, m, costs[m]!, inWeeks));
  const products = years.map(({ line }) => line);
  return {
    bench: asked.bench,
    from: asked.from,
    to: daysAfter(asked.from, 7 * WEEKS_OF_SEASON - 1),
    weeks: WEEKS_OF_SEASON,
    currency: asked.currency,
    climate: asked.climate,
    feeds,
    mixes,
    months: monthsOf(weeks, inWeeks, used, asked),
    products,
    orders,
    events: eventsOf(weeks, feeds, mixes, orders),
    storage: storageOf(asked.shelf, compiledPractice.humidities),
    litres: litres(sum(feeds.map((feed) => feed.litres))),
    cost: sum(feeds.map((feed) => feed.cost)),
    spend: sum(orders.map(({ cost }) => cost ?? 0)),
    leadDays: asked.leadDays,
    notes: [...asked.notes, ...notesOf(asked, feeds, mixes, products)],
    cautions: cautionsFor(
      used.map(({ product }) => product),
      ...asked.feeds.map(({ spec }) => spec.plants),
    ),
  };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Money for a litre of a mix, products and water apart: water is added to what is diluted. What has no price counts nothing. */
function costPerLitre({ amounts, request }: DosePlan, { shelf }: SeasonAsked): { products: number; water: number } {
  const products = request.shelf.map(({ id }, i) => {
    const { price, pack } = shelf.find((product) => product.id === id) ?? {};
    return price === undefined || pack === undefined ? 0 : (amounts.products[i]! * price) / pack;
  });
  return {
    products: sum(products),
    water: sum(request.waters.map(({ pricePerLitre }, i) => pricePerLitre * amounts.waters[i]!)),
  };
}

function feedWeek(
  feed: AskedFeed,
  { month }: Week,
  { mixes }: SeasonAsked,
  costs: readonly { products: number; water: number }[],
): FeedWeek {
  const { state, weeklyLitres } = feed.months[month - 1]!;
  if (state.kind !== 'fed' || mixes[state.mix] === undefined) return { state, litres: litres(0), cost: 0 };
  const { products, water } = costs[state.mix]!;
  return { state, litres: weeklyLitres, cost: weeklyLitres * (products * state.share + water) };
}

function feedOf(feed: AskedFeed, weeks: readonly Week[], inWeeks: readonly FeedWeek[]): SeasonFeed {
  const { spec, weeklyLitres } = feed;
  const pots: PotsOfFeed = {
    pots: spec.pots ?? null,
    potLitres: spec.potLitres ?? null,
    wateringLitres: spec.wateringLitres ?? null,
    wateringsAWeek: spec.wateringLitres === undefined ? null : weeklyLitres / spec.wateringLitres,
    weeklyAssumed: feed.weeklyAssumed,
  };
  const isFed = inWeeks.map(({ state }) => state.kind === 'fed');
  return {
    name: spec.name,
    plants: spec.plants,
    medium: spec.medium,
    weeklyLitres,
    pots,
    spans: spansOf(weeks, inWeeks),
    litres: litres(sum(inWeeks.map((week) => week.litres))),
    cost: sum(inWeeks.map((week) => week.cost)),
    flush: flushPlan(spec.medium, pots, isFed, compiledPractice.flushes),
  };
}

/** g or mL of a product that all feeds use in a week. */
function usedIn(w: number, id: string, { mixes }: SeasonAsked, inWeeks: readonly FeedWeek[][]): number {
  return sum(
    inWeeks.map((weeks) => {
      const { state, litres: given } = weeks[w]!;
      return state.kind === 'fed' ? given * state.share * perLitreOf(mixes[state.mix]!, id) : 0;
    }),
  );
}

/** g or mL of a product in a litre of a mix. */
function perLitreOf({ plan }: MadeMix, id: string): number {
  const place = plan.request.shelf.findIndex((product) => product.id === id);
  return place < 0 ? 0 : plan.amounts.products[place]!;
}

function mixOf(
  { plan, feeds, isKept, sure }: MadeMix,
  m: number,
  cost: { products: number; water: number },
  inWeeks: readonly FeedWeek[][],
): SeasonMix {
  const { nitrogenShares, elements, ec } = plan.mix;
  const takes = (week: FeedWeek): boolean => week.state.kind === 'fed' && week.state.mix === m;
  const shareOf = ({ state }: FeedWeek): number => (state.kind === 'fed' ? state.share : 0);
  const weekly = inWeeks[0]!.map((_, w) => inWeeks.map((weeks) => weeks[w]!).filter(takes));
  return {
    feeds: feeds.map((feed) => ({ ...feed, litres: litres(litresOfStage(feed, m, inWeeks)) })),
    batchLitres: plan.batchLitres,
    items: plan.items.map(({ product, chosen }) => ({
      id: product.id,
      name: product.name,
      unit: product.form === 'powder' ? 'g' : 'mL',
      perLitre: chosen.amount / plan.batchLitres,
      inBatch: chosen.words,
      isByPen: chosen.tool === 'pen',
    })),
    waters: plan.request.waters.map(({ id }, i) => ({ id, share: plan.amounts.waters[i]! })),
    costPerLitre: cost.products + cost.water,
    nitrogen: elements.find(({ element }) => element === 'N')?.mgPerLitre ?? 0,
    ammoniumAndUrea: nitrogenShares && nitrogenShares.ammonium + nitrogenShares.urea,
    ecMSPerCm: ec.mSPerCm,
    isKept,
    sure,
    litres: litres(sum(weekly.flat().map((week) => week.litres * shareOf(week)))),
    weeks: weekly.filter((these) => these.length > 0).length,
  };
}

/** Litres of one feed that are made of a mix, water added. */
function litresOfStage(
  { phase, strength }: MadeMix['feeds'][number],
  m: number,
  inWeeks: readonly FeedWeek[][],
): number {
  return sum(
    inWeeks
      .flat()
      .filter(
        ({ state }) => state.kind === 'fed' && state.mix === m && state.phase === phase && state.strength === strength,
      )
      .map((week) => week.litres as number),
  );
}

function monthsOf(
  weeks: readonly Week[],
  inWeeks: readonly FeedWeek[][],
  used: readonly { product: { id: string }; perWeek: readonly number[] }[],
  { climate }: SeasonAsked,
): SeasonMonth[] {
  return [...new Set(weeks.map(({ key }) => key))].map((key) => {
    const places = weeks.flatMap((week, w) => (week.key === key ? [w] : []));
    const over = (of: (week: FeedWeek) => number): number =>
      sum(inWeeks.flatMap((feed) => places.map((w) => of(feed[w]!))));
    const { light, temperatureC, isRest } = climate.months[weeks[places[0]!]!.month - 1]!;
    return {
      key,
      weeks: places.length,
      litres: litres(over((week) => week.litres)),
      cost: over((week) => week.cost),
      ...{ light, temperatureC, isRest },
      uses: used.map(({ product, perWeek }) => ({ id: product.id, amount: sum(places.map((w) => perWeek[w]!)) })),
    };
  });
}
