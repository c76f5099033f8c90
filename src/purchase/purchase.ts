import { type Caution, cautionsFor } from '../can/cautions.js';
import { compare } from './compare.js';
import { atLeastEc, ecReserve, keepsCaps } from './ec.js';
import { extrasOf } from './extras.js';
import { optionOf } from './option.js';
import { type Joint, jointProgram } from './program.js';
import { type Found, type Search, search, without } from './search.js';
import type { PurchaseOption, PurchaseOptions, PurchaseRequest, PurchaseResult } from './types.js';
import { failuresOf } from './why.js';
import type { Proof } from '../feed/results.js';
import { formatNumber } from '../units/index.js';

/**
 * The cheapest whole packs with which every feed can be mixed over the horizon, the shelf used first; the next best that differ in
 * what is bought; and what they are worth beside other ways. Where no purchase does, why.
 */
export async function purchase(request: PurchaseRequest, options: PurchaseOptions = {}): Promise<PurchaseResult> {
  let joint = jointProgram(request);
  let listed = await list(joint, options);
  // the linearisation of the least EC has the last word on what is impossible, as in blend
  const second = listed.status === 'infeasible' || listed.isOverCap ? await atLeastEc(joint) : null;
  if (second) {
    const again = await list(second, options);
    if (again.status !== 'uncertified') [joint, listed] = [second, again];
  }
  const best = listed.options[0];
  const result: PurchaseResult = {
    ...headOf(request),
    status: listed.status,
    options: listed.options,
    extras: [],
    oneMoreAllowed: null,
    comparison: null,
    failures: [],
    notes: [...notesOf(joint), ...listed.notes],
    cautions: best ? cautionsOf(joint, best) : [],
    proof: listed.proof,
  };
  if (best) {
    options.onStep?.('other ways to buy');
    result.extras = await extrasOf(joint, best);
    result.oneMoreAllowed = await oneMoreAllowed(joint, options);
    result.comparison = await compare(joint, best, options);
    if (best.proof.verdict === 'optimal') {
      const words = await ecReserve(joint, best, options);
      for (const proof of new Set([result.proof, best.proof])) proof.sentence += words;
    }
  } else if (listed.status === 'infeasible') {
    options.onStep?.('why nothing does');
    result.failures = await failuresOf(joint, options);
  }
  return result;
}

interface Listed {
  status: PurchaseResult['status'];
  options: PurchaseOption[];
  proof: Proof;
  notes: string[];
  /** The best is over an EC cap by the full model. */
  isOverCap?: boolean;
}

async function list(joint: Joint, options: PurchaseOptions): Promise<Listed> {
  const most = options.options ?? 5;
  const found: PurchaseOption[] = [];
  let left = joint;
  let notes: string[] = [];
  while (found.length < most) {
    options.onStep?.(found.length === 0 ? 'the best purchase' : `option ${found.length + 1} of ${most}`);
    const answer = await search(left, { ...options, byCases: found.length === 0 });
    if (!('found' in answer)) {
      if (found.length === 0) return { ...nothing(answer), options: [], notes: [] };
      notes = [endNote(answer, found.length)];
      break;
    }
    found.push(await optionOf(joint, answer.found, proofOfFound(answer.found, found.length, joint)));
    if (answer.found.boundBy === null) {
      notes = ['Time ran out, so no further options were sought; --seconds gives the search more.'];
      break;
    }
    if (answer.found.counts.every((count) => count === 0)) break;
    left = without(left, answer.found.counts, found.length);
  }
  return {
    status: found[0]!.proof.verdict === 'optimal' ? 'optimal' : 'uncertified',
    options: inOrder(found),
    proof: found[0]!.proof,
    notes,
    isOverCap: !keepsCaps(found[0]!),
  };
}

/** Where two cost the same, the one whose feeds hold less value per litre comes first. */
function inOrder(options: readonly PurchaseOption[]): PurchaseOption[] {
  const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * Math.max(1, a, b);
  const perLitre = (option: PurchaseOption): number => option.feeds.reduce((sum, feed) => sum + feed.costPerLitre, 0);
  return [...options].sort((a, b) => (same(a.total, b.total) ? perLitre(a) - perLitre(b) : a.total - b.total));
}

function proofOfFound(found: Found, earlier: number, joint: Joint): Proof {
  const { objective, bound, gap, violation, engine, boundBy } = found;
  const { currency, weeks } = joint.request;
  const figures = `bound ${formatNumber(bound)}, found ${formatNumber(objective)} ${currency}, gap ${gapText(gap)}, for packs and water over ${formatNumber(weeks)} weeks`;
  const base = { engine, found: objective, bound, gap, violation };
  if (boundBy === null) {
    const share = objective > 0 ? formatNumber((100 * (objective - bound)) / objective) : '0';
    return {
      ...base,
      verdict: 'uncertified',
      sentence: `time ran out: this purchase does, but one that costs up to ${share} % less may exist (${figures})`,
    };
  }
  const other =
    earlier === 0 ? 'no purchase costs less' : 'no purchase that does without part of each option before costs less';
  const how = {
    multipliers: 'proved by arithmetic',
    cases: 'proved case by case, by arithmetic',
    search: 'by exhaustion, on the word of the search; the purchase itself is checked',
  }[boundBy];
  return { ...base, verdict: 'optimal', sentence: `${other}: ${figures} (${how})` };
}

/** The search's own tolerance is 0.0001 %. */
const gapText = (gap: number): string => (gap <= 1e-6 ? 'below 0.0001 %' : `${formatNumber(100 * gap)} %`);

function nothing(answer: Exclude<Search, { found: Found }>): Pick<Listed, 'status' | 'proof'> {
  const empty = { found: null, bound: null, gap: null, violation: null };
  if (!answer.none) {
    return {
      status: 'uncertified',
      proof: {
        ...empty,
        engine: 'none',
        verdict: 'uncertified',
        sentence: `nothing was found or ruled out: ${answer.why}`,
      },
    };
  }
  const how = answer.byArithmetic ? 'proved by arithmetic' : 'the search went through all of them; its own word';
  return {
    status: 'infeasible',
    proof: {
      ...empty,
      engine: answer.engine,
      verdict: 'infeasible',
      sentence: `no purchase serves every feed (${how})`,
    },
  };
}

function endNote(answer: Exclude<Search, { found: Found }>, count: number): string {
  return answer.none
    ? `There ${count === 1 ? 'is no option' : `are no options`} beyond ${count === 1 ? 'this one' : `these ${count}`} that ${count === 1 ? 'does' : 'do'} without part of each.`
    : `Time ran out before more options were found (${answer.why}); --seconds gives the search more.`;
}

async function oneMoreAllowed(joint: Joint, options: PurchaseOptions): Promise<PurchaseResult['oneMoreAllowed']> {
  const { atMost } = joint.request;
  if (atMost === undefined) return null;
  const answer = await search(jointProgram({ ...joint.request, atMost: atMost + 1 }), { ...options, byCases: false });
  if (!('found' in answer) || answer.found.boundBy === null) return null;
  const { counts, objective } = answer.found;
  return { spend: objective, products: joint.pool.flatMap(({ product }, i) => (counts[i]! > 0 ? [product.id] : [])) };
}

function headOf(request: PurchaseRequest): Pick<PurchaseResult, 'schema' | 'currency' | 'weeks' | 'plan' | 'market'> {
  return {
    schema: 'velamen.buy/1',
    currency: request.currency,
    weeks: request.weeks,
    plan: request.feeds.map(({ request: feed, weeklyLitres }) => ({
      feed: feed.header,
      weeklyLitres,
      litres: weeklyLitres * request.weeks,
    })),
    market: { name: request.marketName, products: request.market.length },
  };
}

function notesOf({ pool, request }: Joint): string[] {
  const unknown = pool.filter((c) => c.isOnShelf && c.onHand === null).map((c) => c.product.id);
  const other = pool
    .filter(({ product, isOnShelf }) => {
      const sold = isOnShelf ? request.market.find((p) => p.id === product.id) : undefined;
      return sold !== undefined && sold.composition.per !== product.composition.per;
    })
    .map((c) => c.product.id);
  return [
    ...(unknown.length === 0
      ? []
      : [
          `The shelf does not say how much is left of ${unknown.join(', ')}: taken as enough. Fill in on_hand to have it counted.`,
        ]),
    ...(other.length === 0
      ? []
      : [
          `${other.join(', ')}: a powder on the shelf and a liquid on the market, or the other way; no more of it is bought.`,
        ]),
  ];
}

function cautionsOf(joint: Joint, best: PurchaseOption): Caution[] {
  const bought = new Set([...best.packs, ...best.stock].map((line) => line.id));
  const products = joint.pool.filter(({ product }) => bought.has(product.id)).map(({ product }) => product);
  return cautionsFor(products, ...best.feeds.map(({ feed }) => feed.plants));
}
