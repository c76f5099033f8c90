import { aimsOf, factorOf, factorOfShare } from '../feed/near.js';
import { costing } from '../feed/price.js';
import { Proof } from '../feed/proof.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendResult, FrontierPoint, FrontierResult, Mix } from '../feed/results.js';
import type { GivenMade, GivenResult } from './given-types.js';

/** The widest share that may be asked for: ten times the aim more. */
const WIDEST = 10;
/** So many feeds are made; each takes as long as one `blend`. */
const MOST_FEEDS = 7;
/** Feeds whose costs lie nearer than this, as a share, do not differ by money. */
const SAME = 1e-6;

/** A feed at a share; the whole percent, so that what is printed is what is asked. */
interface Tried {
  percent: number;
  cost: number;
  feed: GivenMade;
}

/**
 * Cost against nearness: the feeds that are given at shares from none to the widest. Rounding to tools and fewer items make cost a function of
 * steps, so shares are halved where the cost differs most, and of neighbours that cost the same the nearest is told. From nearest to cheapest.
 * @param feedAt the feed that is given at a factor of the usual widths
 */
export async function frontier(
  request: FeedRequest,
  feedAt: (factor: number) => Promise<GivenResult | BlendResult>,
): Promise<FrontierResult> {
  const { counts, assumed, perUnit } = costing(request.shelf);
  const unit =
    counts === 'money' ? (request.header.currency === '' ? 'per litre' : `${request.header.currency}/L`) : 'g/L';
  const base = { feed: request.header, costUnit: unit, assumed };
  const perId = new Map(request.shelf.map(({ id }, i) => [id, perUnit[i]!]));
  const costOf = (mix: Mix): number =>
    mix.items.reduce((sum, item) => sum + (perId.get(item.id) ?? 0) * amountOf(item), 0) +
    (counts === 'money' ? mix.waters.reduce((sum, water) => sum + (water.costPerLitre ?? 0), 0) : 0);

  const tried: Tried[] = [];
  for (let percent: number | null = 0; percent !== null; percent = nextOf(tried)) {
    const feed = await feedAt(factorOfShare(percent / 100));
    if (feed.status !== 'made' || !('given' in feed)) {
      const { proof } = feed;
      if (tried.length > 0) break;
      return { ...base, status: proof.verdict === 'infeasible' ? 'cannot' : 'open', proof };
    }
    tried.push({ percent, cost: costOf(feed), feed });
    tried.sort((a, b) => a.percent - b.percent);
  }
  const corners = cornersOf(tried);
  const points = corners.map(({ percent, cost, feed }, i): FrontierPoint => {
    const next = corners[i + 1];
    const { near, sure } = feed.given;
    return {
      near: percent / 100,
      main: near.main,
      trace: near.trace,
      farthest: farthestOf(feed, request),
      cost,
      costPerLitre: feed.costPerLitre,
      sure: sure.share,
      items: feed.items,
      waters: feed.waters,
      costOfCloser: next ? (cost - next.cost) / (next.percent - percent) : null,
    };
  });
  const settled = corners.map(({ percent, feed: { proof } }) => ({ near: percent / 100, settled: proof.settled }));
  return { ...base, status: 'made', points, proof: Proof.of({ question: 'curve', unit, points: settled }) };
}

const amountOf = ({ gramsPerLitre, millilitresPerLitre }: Mix['items'][number]): number =>
  gramsPerLitre ?? millilitresPerLitre ?? 0;

const isSame = (a: Tried, b: Tried): boolean =>
  Math.abs(a.cost - b.cost) <= SAME * Math.max(Math.abs(a.cost), Math.abs(b.cost));

/** Where to look next: both ends, then between the neighbours whose costs differ most; null where that would tell nothing more. */
function nextOf(tried: readonly Tried[]): number | null {
  if (tried.length === 1) return 100 * WIDEST;
  if (tried.length >= MOST_FEEDS) return null;
  const gaps = tried.slice(1).flatMap((b, i) => {
    const a = tried[i]!;
    // shares are told apart as parts of the width, not of the share
    const middle = Math.round(100 * Math.sqrt((1 + a.percent / 100) * (1 + b.percent / 100)) - 100);
    const open = middle > a.percent && middle < b.percent && !isSame(a, b);
    return open ? [{ middle, by: Math.abs(a.cost - b.cost) }] : [];
  });
  return gaps.sort((a, b) => b.by - a.by)[0]?.middle ?? null;
}

/** Of feeds from nearest to widest, those that cost less than every nearer one. */
function cornersOf(tried: readonly Tried[]): Tried[] {
  const kept: Tried[] = [];
  for (const one of tried) {
    const last = kept.at(-1);
    if (!last || (one.cost < last.cost && !isSame(one, last))) kept.push(one);
  }
  return kept;
}

function farthestOf({ elements }: Mix, request: FeedRequest): FrontierPoint['farthest'] {
  const all = aimsOf(request.programme)
    .filter(([element]) => element !== 'N')
    .map(([element, aim]) => ({
      element,
      mgPerLitre: elements.find((line) => line.element === element)?.mgPerLitre ?? 0,
      aim,
    }));
  const by = ({ element, mgPerLitre, aim }: (typeof all)[number]): number => factorOf(element, mgPerLitre, aim);
  return all.sort((a, b) => by(b) - by(a))[0] ?? null;
}
