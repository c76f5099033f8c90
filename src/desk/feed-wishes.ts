import type { GivenAsked } from '../blend/given.js';
import { factorOfShare } from '../feed/near.js';
import { clash } from './clash.js';
import type { Collected } from './collected.js';
import { made, type Wishes } from './wishes.js';

/** Which feed is asked for: the one to give, or the bare cheapest mix inside the limits. */
export interface FeedWishes extends Pick<GivenAsked, 'want' | 'factor' | 'sure' | 'by'> {
  bare: boolean;
}

/** Wishes that say which feed is asked for. */
export const WHICH_FEED = ['near', 'closest', 'bare', 'sure', 'atMost', 'by'] as const;

/** Reads `near`, `closest`, `bare`, `sure` and `by`. */
export function feedWishes(wishes: Wishes, collected: Collected): FeedWishes {
  const near = collected.wish(wishes, 'near');
  const sure = collected.wish(wishes, 'sure');
  const by = collected.wish(wishes, 'by');
  if (wishes.bare) {
    for (const other of made(wishes, ['near', 'closest', 'sure', 'by']))
      collected.add(clash('bare', other, 'the limits alone, or a feed that is near and sure'));
  }
  if (wishes.near !== undefined && wishes.closest)
    collected.add(clash('near', 'closest', 'as near as asked, or as near as can be'));
  return {
    bare: wishes.bare === true,
    want: wishes.closest ? 'closest' : 'near',
    ...(near === undefined ? {} : { factor: factorOfShare(near) }),
    ...(sure === undefined ? {} : { sure }),
    ...(by === undefined ? {} : { by }),
  };
}
