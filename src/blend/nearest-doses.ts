import { withReading } from '../chance/reading.js';
import { amountsOfMix } from '../dose/wanted.js';
import { type DosePlan, planDoses } from '../dose/plan.js';
import { type Grade, gradeOf } from '../feed/grade.js';
import type { Miss } from '../feed/limits.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { NearestMix } from '../feed/results.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { LinearRule, Rule } from '../programme/rule.js';
import { scaleBy } from '../units/index.js';
import type { FeedAsked } from './feed-plan.js';
import { planCounted } from './iron-counted.js';

/** A limit that the nearest doses miss, and how much that matters. */
export interface GradedMiss extends Miss {
  grade: Grade;
}

/** The nearest there is as doses of the kit, with what it misses. */
export interface NearestDoses {
  plan: DosePlan;
  /** What hurts first, then what plants need, then conventions. */
  misses: GradedMiss[];
}

/** Below what the nearest mix reaches by so much, so that measures of the kit fit; the misses are told of what is measured out. */
const ROOM = 0.95;
const ORDER: readonly Grade[] = ['harm', 'need', 'custom'];

/**
 * The nearest mix measured out: what it cannot keep is given up as far as it must be, and with the rest a feed is planned like any other,
 * near its aims and with the fewest items. Null where nothing can be given that would not hurt.
 */
export async function nearestDoses(
  request: FeedRequest,
  nearest: NearestMix | null,
  asked: FeedAsked,
): Promise<NearestDoses | null> {
  if (nearest === null) return null;
  const plan = async (limits: FeedRequest): Promise<NearestDoses | null> => {
    const planned = await planCounted(limits, { ...asked, want: 'near', offers: false });
    return 'plan' in planned ? told(planned.plan, request) : null;
  };
  const limits = loosened(request, nearest.misses);
  const first = await balanced(await plan(limits), limits, nearest.misses, plan);
  if (first && !hurts(first)) return first;
  // a digit of the pen may be too coarse for what hurts
  if (first && asked.pen) return nearestDoses(request, nearest, { ...asked, pen: undefined });
  const { products, waters } = amountsOfMix(nearest, request);
  for (const part of WEAKER) {
    const amounts = { products: products.map((x) => x * part), waters };
    const doses = told(await planDoses(request, amounts, asked.kit, { known: asked.known, offers: false }), request);
    if (!hurts(doses)) return doses;
  }
  return null;
}

/** So far a rule is moved in for the steps of hands: times what it was broken by, at most. */
const MOVED_IN = { times: 2, most: 0.2 };

/** Steps of hands may break a balance that the nearest mix keeps: planned again with that rule moved in, where more is kept so. */
async function balanced(
  first: NearestDoses | null,
  limits: FeedRequest,
  allowed: readonly Miss[],
  plan: (limits: FeedRequest) => Promise<NearestDoses | null>,
): Promise<NearestDoses | null> {
  const meant = new Set(allowed.flatMap(({ limit }) => (limit.kind === 'rule' ? [limit.rule.text] : [])));
  const broken = new Map(
    first?.misses.flatMap(({ limit, value, bound }): [string, number][] =>
      limit.kind === 'rule' && !meant.has(limit.rule.text) && bound !== 0
        ? [[limit.rule.text, Math.min(MOVED_IN.times * Math.abs(value / bound - 1), MOVED_IN.most)]]
        : [],
    ),
  );
  if (first === null || broken.size === 0) return first;
  const move = (rules: readonly Rule[]): Rule[] =>
    rules.map((rule) =>
      rule.kind === 'linear' && broken.has(rule.text) ? movedIn(rule, broken.get(rule.text)!) : rule,
    );
  const programme = { ...limits.programme, rules: move(limits.programme.rules) };
  const again = await plan({ ...limits, programme, rules: move(limits.rules) });
  return again && !hurts(again) && graveOf(again) < graveOf(first) ? again : first;
}

const graveOf = ({ misses }: NearestDoses): number => misses.filter(({ grade }) => grade !== 'custom').length;

/** A rule that asks for a share more: of a ratio the ratio, of an amount the amount. */
function movedIn(rule: LinearRule, share: number): LinearRule {
  const { lower, upper } = rule;
  const grown = (sign: 1 | -1): LinearRule['terms'] =>
    Object.fromEntries(
      Object.entries(rule.terms).map(([nutrient, w]) => [nutrient, w * sign > 0 ? w * (1 + share) : w]),
    ) as LinearRule['terms'];
  if (lower === 0) return { ...rule, terms: grown(-1) };
  if (upper === 0) return { ...rule, terms: grown(1) };
  return {
    ...rule,
    ...(lower === undefined ? {} : { lower: lower + share * Math.abs(lower) }),
    ...(upper === undefined ? {} : { upper: upper - share * Math.abs(upper) }),
  };
}

/** Steps of hands may carry the nearest mix over what hurts: so much of it instead. */
const WEAKER = [1, 0.96, 0.92, 0.86, 0.78, 0.66, 0.5];

const hurts = ({ misses }: NearestDoses): boolean => misses.some(({ grade }) => grade === 'harm');

function told(plan: DosePlan, request: FeedRequest): NearestDoses {
  const mix = withReading(readOut(plan.amounts, request, plan.sequence.turns), plan, request);
  const misses = graded(missesOf(mix), request);
  const violations = misses.filter(({ grade }) => grade !== 'custom');
  return { plan: { ...plan, request, mix, status: 'violated', violations, offers: [] }, misses };
}

/** Misses with their grades, the gravest first. */
export function graded(misses: readonly Miss[], { programme }: Pick<FeedRequest, 'programme'>): GradedMiss[] {
  return misses
    .map((miss) => ({ ...miss, grade: gradeOf(miss.limit, programme) }))
    .sort((a, b) => ORDER.indexOf(a.grade) - ORDER.indexOf(b.grade));
}

/** The request with the shortages that the nearest mix has, and without the rules of balance that it breaks. Nothing that hurts gives way. */
function loosened(request: FeedRequest, misses: readonly Miss[]): FeedRequest {
  const bands = { ...request.programme.bands };
  const broken = new Set<string>();
  for (const { limit, value } of misses) {
    if (gradeOf(limit, request.programme) === 'harm') continue;
    if (limit.kind === 'rule') broken.add(limit.rule.text);
    const band = limit.kind === 'nutrient' ? bands[limit.nutrient as Nutrient] : undefined;
    if (limit.kind === 'nutrient' && limit.end === 'least' && band)
      bands[limit.nutrient] = { ...band, min: scaleBy(band.min!, (ROOM * Math.max(0, value)) / limit.bound) };
  }
  const kept = <R extends { text: string }>(rules: readonly R[]): R[] => rules.filter(({ text }) => !broken.has(text));
  return {
    ...request,
    programme: { ...request.programme, bands, rules: kept(request.programme.rules) },
    rules: kept(request.rules),
  };
}
