import { atDoor } from '../door.js';
import type { FeedSpec } from '../catalog/bench-types.js';
import type { FeedRequest } from '../feed/request.js';
import type { FeedHeader, UnfedFeed } from '../feed/results.js';
import { type Problem, problem } from '../problem.js';
import { type Programme, restSays } from '../programme/programme.js';
import { resolveProgramme } from '../programme/resolve.js';
import { atStrength, strengthText } from '../programme/strength.js';
import type { Collected } from './collected.js';
import type { OpenBench } from './opened.js';
import type { Wishes } from './wishes.js';

/**
 * The requests of all feeds that are meant, each with what is asked of the mix. Feeds of plants that rest without any are left out, with a
 * warning; where no other is left, that is refused.
 * @param unfed takes them instead, where the question has an answer for them
 */
export function feedRequests(
  open: OpenBench,
  collected: Collected,
  asked: AskedOfMix = {},
  unfed?: UnfedFeed[],
): FeedRequest[] {
  refuseTooMuch(open, collected);
  const resting = open.feeds.flatMap((spec) => unfedOf(spec, open) ?? []);
  if (unfed) unfed.push(...resting);
  else if (resting.length < open.feeds.length) collected.add(...resting.map((one) => doNotFeed(one, 'warning')));
  else collected.add(...resting.map((one) => doNotFeed(one, 'error')));
  const names = new Set(resting.map(({ feed }) => feed.name));
  return open.feeds
    .filter((spec) => !names.has(spec.name))
    .flatMap((spec) => {
      const request = requestOf(spec, open, collected);
      return request ? [{ ...request, ...asked }] : [];
    });
}

function unfedOf(spec: FeedSpec, open: OpenBench): UnfedFeed | undefined {
  const full = resolveProgramme(open.catalog, spec.plants, spec.medium, spec.phase, spec.where);
  if (!full.ok || full.value.unfed === undefined) return undefined;
  return { status: 'unfed', feed: headerOf(spec, 0, open), rest: full.value.unfed };
}

const doNotFeed = ({ feed, rest }: UnfedFeed, severity: Problem['severity']): Problem => ({
  ...problem(
    'do-not-feed',
    { field: feed.name },
    `${feed.plants} in ${feed.phase}, which are not fed at all`,
    'plants that are fed',
    `Do not feed: water plainly ${restSays(rest)}.`,
  ),
  severity,
});

const headerOf = (spec: FeedSpec, strengthFactor: number, { currency }: OpenBench): FeedHeader => ({
  name: spec.name,
  plants: spec.plants,
  medium: spec.medium,
  phase: spec.phase,
  strength: strengthText(spec.strength),
  strengthFactor,
  batchLitres: spec.batchLitres ?? null,
  currency,
});

/**
 * Feeds times products that one command takes on: minutes of work. It is counted, not timed, so that a question is answered, or not, on every
 * machine alike.
 */
const MOST_WORK = 25_000;
/** What a feed costs beside its products. */
const OWN_WORK = 40;

export function refuseTooMuch({ feeds, shelf }: Pick<OpenBench, 'feeds' | 'shelf'>, collected: Collected): void {
  const products = shelf.products.length;
  if (feeds.length <= 1 || feeds.length * (OWN_WORK + products) <= MOST_WORK) return;
  const most = Math.max(1, Math.floor(MOST_WORK / (OWN_WORK + products)));
  collected.add(
    problem(
      'too-much',
      { field: '--feed' },
      `${feeds.length} feeds of ${products} products each`,
      `at most ${most} of them at once`,
      atDoor({
        typed: 'Name one with --feed, or leave out products with --without.',
        page: 'Choose one feed, or take products off the shelf.',
      }),
    ),
  );
}

/** What is asked of a mix beside its limits. */
export type AskedOfMix = Partial<Pick<FeedRequest, 'goal' | 'atMost' | 'temperatureC'>>;

/** Reads `closest`, `atMost` and `temperature`. */
export function askedOfMix(wishes: Wishes, collected: Collected): AskedOfMix {
  const atMost = collected.wish(wishes, 'atMost');
  if (atMost === 0)
    collected.add(
      problem('no-products', { field: '--at-most' }, 'a feed of no products', '1 or more', 'Water alone is no feed.'),
    );
  return {
    goal: wishes.closest ? 'closest' : 'cheapest',
    ...(atMost === undefined ? {} : { atMost }),
    ...warmthOf(wishes, collected),
  };
}

/** Reads `temperature`, that of the can. */
export function warmthOf(wishes: Wishes, collected: Collected): Pick<FeedRequest, 'temperatureC'> {
  const temperatureC = collected.wish(wishes, 'temperature');
  return temperatureC === undefined ? {} : { temperatureC };
}

/** The phase's own factor, where it makes the whole programme weaker than that of growth. */
function weakerPhase({ evidence }: Programme): Pick<FeedHeader, 'phaseFactor'> {
  const phaseFactor = evidence.reduce(
    (product, { of }) =>
      of.kind === 'factor' && of.phase !== '*' && of.nutrient === '*' ? product * of.factor : product,
    1,
  );
  return phaseFactor < 1 ? { phaseFactor } : {};
}

/** The request of one feed, for the cheapest mix; undefined where it was refused. */
export function requestOf(spec: FeedSpec, open: OpenBench, collected: Collected): FeedRequest | undefined {
  const { catalog } = open;
  const full = collected.take(resolveProgramme(catalog, spec.plants, spec.medium, spec.phase, spec.where));
  const scaled = full && collected.take(atStrength(full, spec.strength, spec.where));
  if (!scaled) return undefined;
  return {
    header: { ...headerOf(spec, scaled.factor, open), ...weakerPhase(scaled.programme) },
    programme: scaled.programme,
    rules: spec.rules,
    shelf: open.shelf.products,
    waters: open.waters,
    otherWaters: catalog.waters,
    market: [...catalog.products, ...catalog.salts],
    goal: 'cheapest',
  };
}

/** A request that asks for nothing: what is mixed is only read out. */
export function unjudged({ currency, waters }: Pick<OpenBench, 'currency' | 'waters'>): FeedRequest {
  return {
    header: {
      name: 'recipe',
      plants: '',
      medium: '',
      phase: '',
      strength: '',
      strengthFactor: 1,
      batchLitres: null,
      currency,
    },
    programme: { plants: '', medium: 'sphagnum', phase: 'growth', bands: {}, rules: [], evidence: [] },
    rules: [],
    shelf: [],
    waters,
    goal: 'cheapest',
  };
}

/** Refuses several feeds where what was wished, such as `json`, holds one. */
export function oneFeedOnly(
  wishes: Wishes,
  requests: readonly Pick<FeedRequest, 'header'>[],
  collected: Collected,
): void {
  if (requests.length <= 1) return;
  const names = requests.map((request) => request.header.name).join(', ');
  for (const form of wishes.oneFeedFor ?? []) {
    collected.add(
      problem(
        `one-feed-in-${form}`,
        { field: '--feed' },
        `${requests.length} feeds`,
        `one feed for --${form}`,
        atDoor({ typed: `Name one with --feed: ${names}.`, page: `Choose one: ${names}.` }),
      ),
    );
  }
}

/** Refuses feeds of which nobody says how much to mix. */
export function refuseUnsized(
  wishes: Wishes,
  requests: readonly Pick<FeedRequest, 'header'>[],
  collected: Collected,
): void {
  const unsized = requests.filter((request) => request.header.batchLitres === null);
  // a volume that was refused is no missing one
  if (unsized.length === 0 || wishes.mix !== undefined) return;
  collected.add(
    problem(
      'no-mix',
      { field: '--mix' },
      `no batch for ${unsized.map((request) => request.header.name).join(', ')}`,
      'how much to mix',
      atDoor({
        typed: 'Say --mix "4 L", or write batch: 4 L for the feed in bench.yaml.',
        page: 'Say how much to mix, or fill in Mixed at a time for the feed in Plants.',
      }),
    ),
  );
}
