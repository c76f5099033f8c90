import type { Nutrient } from '../../../src/chemistry/nutrients.js';
import { nearestWidth } from '../../../src/blend/near-width.js';
import { type Sharing, sharings, stretched } from '../../../src/blend/one/shared-request.js';
import { shippedCatalog } from '../../../src/desk/shipped-catalog.js';
import { MAIN_ELEMENTS } from '../../../src/feed/near.js';
import { costing } from '../../../src/feed/price.js';
import type { FeedRequest } from '../../../src/feed/request.js';
import { PHASES } from '../../../src/programme/index.js';
import type { LinearProgram, Row } from '../../../solver/index.js';
import { feedOf } from '../../desk/benches.js';
import { randomBench } from '../../feed/random-benches.js';
import { dice } from '../../solver/dice.js';

const catalog = shippedCatalog();

/** Two to four feeds of different programmes and strengths on one seeded shelf, each with a feed of its own. */
export async function sharedBench(seed: number, from: (request: FeedRequest) => FeedRequest): Promise<Sharing[]> {
  const d = dice(seed);
  const first = randomBench(seed, d.whole(12, 20));
  const count = d.whole(2, 4);
  const feeds: { request: FeedRequest; own: Sharing['own'] }[] = [];
  for (let tried = 0; feeds.length < count && tried < 12; tried += 1) {
    const plants = d.pick(catalog.plants);
    const spec = { plants: plants.id, medium: d.pick(plants.media), phase: d.pick(PHASES), percent: d.whole(40, 100) };
    const made = tried === 0 ? first : feedOf(spec, first);
    const header = { ...made.header, name: `feed ${tried}`, batchLitres: first.header.batchLitres };
    const request = from({ ...made, header });
    const own = await nearestWidth(request, 1);
    if ('found' in own) feeds.push({ request, own: own.asked });
  }
  return feeds.length < 2 ? [] : sharings(feeds);
}

/** The same question put together here, from labels, bands and shares alone: nothing of `formulation` is asked. EC caps are left out. */
export function jointProgram(group: readonly Sharing[], stretch: number): LinearProgram {
  const [{ request: mix }] = group as [Sharing];
  const { shelf, waters } = mix;
  const rows: Row[] = [
    { id: 'fill', lower: 1, upper: 1, terms: Object.fromEntries(waters.map((_, j) => [`w${j}`, 1])) },
  ];
  const put = (
    share: number,
    weights: [string, number][],
    how: 'least' | 'most' | 'label',
    ends: Pick<Row, 'lower' | 'upper'>,
  ) => {
    const terms: Record<string, number> = {};
    shelf.forEach(({ composition, ions }, i) => {
      terms[`p${i}`] = weights.reduce((sum, [nutrient, weight]) => {
        // mg of CaCO3 that a meq of alkalinity is
        if (nutrient === 'alkalinity') return sum + share * weight * 50.04 * ions.value.alkalinity;
        const { low, stated, high } = composition.content[nutrient as Nutrient];
        const worst = (how === 'most') === weight > 0 ? high : low;
        return sum + share * weight * (how === 'label' ? (stated ?? low) : worst);
      }, 0);
    });
    waters.forEach(({ mgPerLitre: own, alkalinity }, j) => {
      const forms = (own['NO3-N'] ?? 0) + (own['NH4-N'] ?? 0);
      terms[`w${j}`] = weights.reduce(
        (sum, [n, weight]) =>
          sum + weight * (n === 'alkalinity' ? alkalinity : (own[n as Nutrient] ?? (n === 'N' ? forms : 0))),
        0,
      );
    });
    rows.push({ id: `r${rows.length}`, ...ends, terms });
  };
  for (const feed of group) {
    const { share } = feed.parts;
    const asked = stretched(feed, stretch);
    for (const [nutrient, { min, aim, max }] of Object.entries(feed.request.programme.bands)) {
      const alone: [string, number][] = [[nutrient, 1]];
      if (min !== undefined && min > 0) put(share, alone, 'least', { lower: min });
      if (max !== undefined) put(share, alone, 'most', { upper: max });
      if (aim === undefined || !(aim > 0) || asked.without.includes(nutrient as Nutrient)) continue;
      const factor = asked.own?.[nutrient as Nutrient] ?? asked.factor;
      const width = Math.max(1, factor * (MAIN_ELEMENTS.includes(nutrient as Nutrient) ? 1.35 : 2));
      const ends =
        nutrient === 'N'
          ? { lower: aim * (1 - asked.nitrogenWithin), upper: aim * (1 + asked.nitrogenWithin) }
          : { lower: aim / width, upper: aim * width };
      put(share, alone, 'label', ends);
    }
    for (const rule of [...feed.request.programme.rules, ...feed.request.rules]) {
      if (rule.kind !== 'linear') continue;
      const weights = Object.entries(rule.terms) as [string, number][];
      if (rule.upper !== undefined) put(share, weights, 'most', { upper: rule.upper });
      if (rule.lower !== undefined) put(share, weights, 'least', { lower: rule.lower });
    }
  }
  const { perUnit } = costing(shelf);
  const litres = mix.header.batchLitres!;
  return {
    rows,
    columns: [
      ...shelf.map(({ onHand, maxRate }, i) => ({
        id: `p${i}`,
        cost: perUnit[i]!,
        upper: Math.min(onHand === undefined ? 1e6 : onHand / litres, maxRate ?? 1e6),
      })),
      ...waters.map(({ pricePerLitre }, j) => ({ id: `w${j}`, cost: pricePerLitre, upper: 1 })),
    ],
  };
}
