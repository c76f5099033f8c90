import {
  gramsPerLitre,
  type MgPerLitre,
  mgPerLitre,
  type MilliSiemensPerCm,
  millilitresPerLitre,
} from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { type Measured, NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import type { LinearRule } from '../programme/rule.js';
import { ecInTheCan, inTheCan } from '../can/in-the-can.js';
import type { Amounts } from '../can/mix-amounts.js';
import { type Part, partsOf, watersOf } from '../can/part.js';
import { sequenceOf } from '../can/sequence.js';
import { pricePerUnit } from './price.js';
import { ecLimit, type End, type Miss, type NutrientLimit } from './limits.js';
import { ecRule, type FeedRequest, linearRules } from './request.js';
import type { ElementLine, Item, Mix, RuleLine } from './results.js';
import { contentOf, waterContent } from './terms.js';

/** Elements always listed; the rest only when present. */
const RARE: ReadonlySet<Nutrient> = new Set<Nutrient>(['other-N', 'Co', 'Ni']);

/** A limit counts as kept within this share of its size; the certificate allows the same. */
const KEPT = 1e-6;

type ReadoutRequest = Pick<FeedRequest, 'programme' | 'rules' | 'shelf' | 'waters' | 'header' | 'temperatureC'>;

/**
 * Reads a mix out: amounts, elements against bands, rules, cost, and what the can will show. Pure arithmetic on the original labels.
 * @param parts its products in mixing order, where that is known already
 */
export function readOut(amounts: Amounts, request: ReadoutRequest, parts = inOrder(amounts, request)): Mix {
  const { shelf, waters, header } = request;
  const cap = ecRule(request);
  const batch = header.batchLitres;
  const items: Item[] = [];
  for (const { product, perLitre: x } of parts) {
    const price = pricePerUnit(product);
    items.push({
      id: product.id,
      name: product.name,
      ...(product.composition.per === 'g'
        ? { gramsPerLitre: gramsPerLitre(x) }
        : { millilitresPerLitre: millilitresPerLitre(x) }),
      perBatch: batch === null ? null : x * batch,
      costPerLitre: price === null ? null : x * price,
    });
  }
  const waterShares = waters
    .map((w, i) => ({
      id: w.id,
      name: w.name,
      share: amounts.waters[i] ?? 0,
      costPerLitre: w.pricePerLitre * (amounts.waters[i] ?? 0),
    }))
    .filter((w) => w.share > 1e-9);
  const totals = totalsOf(amounts, shelf, waters);
  const elements = elementLines(totals, request);
  const { ec, ...solution } = inTheCan(
    amounts,
    shelf,
    waters,
    totals,
    request.temperatureC,
    // nobody says what the plants stand in where there is no programme
    header.medium === '' ? null : request.programme.medium,
  );
  const costPerLitre =
    items.reduce((sum, i) => sum + (i.costPerLitre ?? 0), 0) + waterShares.reduce((sum, w) => sum + w.costPerLitre, 0);
  return {
    items,
    waters: waterShares,
    elements,
    nitrogenShares: nitrogenShares(totals),
    rules: linearRules(request).map((rule) => ruleLine(rule, totals)),
    costPerLitre,
    costPerBatch: batch === null ? null : costPerLitre * batch,
    ec: { ...ec, cap: cap && ecLimit(cap) },
    ...solution,
  };
}

function elementLines(
  totals: Pick<ReadonlyMap<Nutrient, Total>, 'get'>,
  { programme }: Pick<ReadoutRequest, 'programme'>,
): ElementLine[] {
  return NUTRIENTS.filter((n) => !RARE.has(n) || totals.get(n)!.high > 0).map((n): ElementLine => {
    const band = programme.bands[n];
    const t = totals.get(n)!;
    return {
      element: n,
      mgPerLitre: mgPerLitre(t.stated),
      low: mgPerLitre(t.low),
      high: mgPerLitre(t.high),
      min: band?.min ?? null,
      aim: band?.aim ?? null,
      max: band?.max ?? null,
    };
  });
}

/** What amounts come to where only limits are asked about: elements, rules and the EC that is told. */
export function readLimits(
  amounts: Amounts,
  request: Pick<ReadoutRequest, 'programme' | 'rules' | 'shelf' | 'waters'>,
  mSPerCm: MilliSiemensPerCm,
): Limited {
  const totals = totalsOf(amounts, request.shelf, request.waters);
  const cap = ecRule(request);
  return {
    elements: elementLines(totals, request),
    rules: linearRules(request).map((rule) => ruleLine(rule, totals)),
    ec: { mSPerCm, cap: cap && ecLimit(cap) },
  };
}

/** What a mix holds and what a pen shows of it, as `readOut` tells it, without what happens in the can. */
export function readContents(amounts: Amounts, request: Omit<ReadoutRequest, 'header'>): Contents {
  const { shelf, waters } = request;
  const totals = totalsOf(amounts, shelf, waters);
  const cap = ecRule(request);
  return {
    elements: elementLines(totals, request),
    nitrogenShares: nitrogenShares(totals),
    ec: { ...ecInTheCan(amounts, shelf, waters), cap: cap && ecLimit(cap) },
  };
}

export type Contents = Pick<Mix, 'elements' | 'nitrogenShares' | 'ec'>;

/** As much of a mix as its limits are judged by. */
export type Limited = Pick<Mix, 'elements' | 'rules'> & { ec: Pick<Mix['ec'], 'mSPerCm' | 'cap'> };

/** The rules of a feed on a mix that may have been made for others of them; as `readOut` tells them. */
export function rulesOf(amounts: Amounts, request: Pick<ReadoutRequest, 'programme' | 'rules' | 'shelf' | 'waters'>) {
  const totals = totalsOf(amounts, request.shelf, request.waters);
  return linearRules(request).map((rule) => ruleLine(rule, totals));
}

/** The order in which the products of a mix go into the can: the same for `blend`, `sheet`, `meter` and `assess`. */
function inOrder(
  amounts: Amounts,
  { shelf, waters, temperatureC }: Pick<FeedRequest, 'shelf' | 'waters' | 'temperatureC'>,
): Part[] {
  return sequenceOf(partsOf(amounts, shelf), watersOf(amounts, waters), { temperatureC }).turns;
}

/** Every band, rule and EC cap that a mix does not keep, with the value that decides. */
export function missesOf(mix: Limited): Miss[] {
  const bands = bandLimits(mix).filter(({ limit, value, bound }) =>
    limit.end === 'least' ? value < bound * (1 - KEPT) : value > bound * (1 + KEPT) + 1e-12,
  );
  const rules = mix.rules.filter(({ holds }) => !holds).map(ruleMiss);
  const { mSPerCm, cap } = mix.ec;
  const ec = cap !== null && mSPerCm > cap.bound * (1 + KEPT) ? [{ limit: cap, value: mSPerCm, bound: cap.bound }] : [];
  return [...bands, ...rules, ...ec];
}

/** Iron that its chelate does not hold at this pH is not there: the least for iron, where labels keep it, is judged by what holds. */
export function ironMiss({ iron, elements }: Pick<Mix, 'iron' | 'elements'>): Miss[] {
  const line = elements.find(({ element }) => element === 'Fe');
  if (!iron || !line || line.min === null || iron.held >= line.min * (1 - KEPT)) return [];
  if (line.low < line.min * (1 - KEPT)) return [];
  const limit = { kind: 'nutrient', nutrient: 'Fe', end: 'least', bound: line.min, owner: 'programme' } as const;
  return [{ limit, value: iron.held, bound: line.min }];
}

/** Every limit that a mix keeps with less than this share of its bound to spare. */
export function justMetBy(mix: Mix, share: number): Miss[] {
  const bands = bandLimits(mix).filter(
    ({ limit, value, bound }) =>
      bound > 0 && (limit.end === 'least' ? value <= bound * (1 + share) : value >= bound * (1 - share)),
  );
  const rules = mix.rules.flatMap((line) => {
    const { value, bound } = line;
    const near = value !== null && bound !== null && bound !== 0 && Math.abs(value - bound) <= share * Math.abs(bound);
    return near ? [ruleMiss(line)] : [];
  });
  const { mSPerCm, cap } = mix.ec;
  const ec =
    cap !== null && mSPerCm >= cap.bound * (1 - share) ? [{ limit: cap, value: mSPerCm, bound: cap.bound }] : [];
  return [...bands, ...rules, ...ec];
}

/** Both ends of every band with what they are judged by: the least that labels guarantee, the most that they allow. */
function bandLimits({ elements }: Pick<Mix, 'elements'>): (Miss & { limit: NutrientLimit })[] {
  return elements.flatMap(({ element, low, high, min, max }) => {
    const limit = (end: End, bound: MgPerLitre): NutrientLimit => ({
      kind: 'nutrient',
      nutrient: element,
      end,
      bound,
      owner: 'programme',
    });
    return [
      ...(min === null ? [] : [{ limit: limit('least', min), value: low, bound: min }]),
      ...(max === null ? [] : [{ limit: limit('most', max), value: high, bound: max }]),
    ];
  });
}

function ruleMiss({ rule, value, bound }: RuleLine): Miss {
  const end: End = rule.upper === undefined ? 'least' : 'most';
  const limit = { kind: 'rule', rule, end, bound: (rule.upper ?? rule.lower)!, owner: rule.from.owner } as const;
  return { limit, value: value ?? 0, bound: bound ?? 0 };
}

type Total = { low: number; stated: number; high: number };

function totalsOf(amounts: Amounts, shelf: readonly ClosedProduct[], waters: readonly Water[]): Map<Measured, Total> {
  return new Map(
    [...NUTRIENTS, 'alkalinity' as const].map((n) => {
      const total: Total = { low: 0, stated: 0, high: 0 };
      amounts.products.forEach((x, i) => {
        if (x === 0) return;
        const c = contentOf(shelf[i]!, n);
        total.low += x * c.low;
        total.stated += x * (c.stated ?? c.low);
        total.high += x * c.high;
      });
      amounts.waters.forEach((share, i) => {
        const mg = share * waterContent(waters[i]!, n);
        total.low += mg;
        total.stated += mg;
        total.high += mg;
      });
      return [n, total];
    }),
  );
}

function nitrogenShares(totals: Pick<ReadonlyMap<Nutrient, Total>, 'get'>): Mix['nitrogenShares'] {
  const n = totals.get('N')!.stated;
  if (!(n > 0)) return null;
  const share = (form: Nutrient): number => totals.get(form)!.stated / n;
  const [nitrate, ammonium, urea, other] = [share('NO3-N'), share('NH4-N'), share('urea-N'), share('other-N')];
  const rest = 1 - nitrate - ammonium - urea - other;
  return { nitrate, ammonium, urea, other, undeclared: Math.abs(rest) < 1e-6 ? 0 : Math.max(0, rest) };
}

function ruleLine(rule: LinearRule, totals: ReadonlyMap<Measured, Total>): RuleLine {
  const entries = Object.entries(rule.terms) as [Measured, number][];
  const sum = (end: 'most' | 'least'): { value: number; size: number } =>
    entries.reduce(
      (acc, [n, weight]) => {
        const t = totals.get(n)!;
        const part = weight * ((end === 'most') === weight > 0 ? t.high : t.low);
        return { value: acc.value + part, size: acc.size + Math.abs(part) };
      },
      { value: 0, size: 0 },
    );
  const [most, least] = [sum('most'), sum('least')];
  const slack = (bound: number, size: number): number => KEPT * Math.max(Math.abs(bound), size);
  const holds = (high: typeof most, low: typeof most): boolean =>
    (rule.upper === undefined || high.value <= rule.upper + slack(rule.upper, high.size)) &&
    (rule.lower === undefined || low.value >= rule.lower - slack(rule.lower, low.size));
  const sure = holds(most, least);
  return {
    rule,
    ...ratioOf(rule, entries, totals, most.value, least.value),
    holds: sure,
    ...(!sure && holds(least, most) ? { mayHold: true as const } : {}),
  };
}

/** `A ≤ k · B` is shown as the ratio A : B; any other rule as its left side. */
function ratioOf(
  rule: LinearRule,
  entries: [Measured, number][],
  totals: ReadonlyMap<Measured, Total>,
  cap: number,
  floor: number,
): { value: number | null; bound: number | null } {
  const homogeneous = (rule.upper ?? rule.lower) === 0;
  if (homogeneous && entries.length === 2) {
    const [[a, wa], [b, wb]] = entries as [[Measured, number], [Measured, number]];
    if (wa * wb < 0) {
      const isCap = (rule.upper !== undefined) === wa > 0;
      const top = isCap ? totals.get(a)!.high : totals.get(a)!.low;
      const under = isCap ? totals.get(b)!.low : totals.get(b)!.high;
      return { value: under > 0 ? clean(top / under) : null, bound: -wb / wa };
    }
  }
  if (homogeneous && entries.length === 1) {
    const [n] = entries[0]!;
    return { value: rule.upper !== undefined ? totals.get(n)!.high : totals.get(n)!.low, bound: 0 };
  }
  return rule.upper !== undefined
    ? { value: clean(cap), bound: rule.upper }
    : { value: clean(floor), bound: rule.lower ?? null };
}

/** What is smaller is left over from adding and multiplying. */
function clean(x: number): number {
  return Math.abs(x) < 1e-12 ? 0 : x;
}
