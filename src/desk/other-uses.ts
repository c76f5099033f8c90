import type { FeedSpec } from '../catalog/bench-types.js';
import type { OtherUse } from '../meter/index.js';
import { Collected } from './collected.js';
import { requestOf } from './feed-requests.js';
import type { OpenBench } from './opened.js';

/** Leafy plants in pots of soil: what a can that is lost to orchids may still do good to. */
const HOUSEPLANTS: FeedSpec = {
  name: 'houseplants',
  plants: 'aroid',
  medium: 'peat',
  phase: 'growth',
  strength: { kind: 'percent', percent: 100 },
  rules: [],
  where: {},
};

/** The other feeds of the bench in their own strength, then houseplants outdoors. */
export function otherUses(open: OpenBench): OtherUse[] {
  const judged = new Set(open.feeds.map(({ name }) => name));
  const others = (open.bench?.feeds ?? []).filter(({ name }) => !judged.has(name));
  // what cannot be asked for is no use; its problems are not those of this question
  const of = (spec: FeedSpec, outdoors: boolean): OtherUse[] => {
    const request = requestOf(spec, open, new Collected());
    return request === undefined ? [] : [{ request, outdoors }];
  };
  return [...others.flatMap((spec) => of(spec, false)), ...of(HOUSEPLANTS, true)];
}
