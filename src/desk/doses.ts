import type { Kit } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { type DosePlan, planDoses } from '../dose/plan.js';
import { sureDoses } from '../chance/robust.js';
import type { NotSureEnough, SureEnough } from '../chance/robust-types.js';
import { amountsOfMix } from '../dose/wanted.js';
import { blend } from '../blend/blend.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendResult } from '../feed/results.js';
import { productsKnown } from './recipe-products.js';

/** The doses of a feed, with the blend that they measure out. */
export interface DosesOfFeed {
  result: BlendResult;
  /** Null where there is neither a feed nor a nearest one. */
  plan: DosePlan | null;
  /** What `--sure` came to; null where it was not asked for, or no feed keeps every limit. */
  wished: SureEnough | NotSureEnough | null;
}

/**
 * Blend and doses, the same for `sheet` and for `meter`, which judges a reading by them. Where no blend keeps every limit, the nearest one
 * is measured out.
 * @param sure share of batches that shall keep every limit
 * @param offers where the kit cannot measure it: whether to work out what would make it possible
 */
export async function dosesOfFeed(
  request: FeedRequest,
  kit: Kit,
  catalog: Catalog,
  { sure, offers }: { sure: number | undefined; offers: boolean },
): Promise<DosesOfFeed> {
  const result = await blend(request, { prices: false });
  const made = result.status === 'made';
  const mix = result.status === 'made' ? result : result.nearest;
  if (mix === null) return { result, plan: null, wished: null };
  const { known, solubility } = { known: productsKnown(catalog), solubility: catalog.solubility };
  const tried = sure === undefined || !made ? null : await sureDoses(request, kit, sure, { known });
  const wished = tried === null || tried.status === 'no feed' ? null : tried;
  const plan =
    wished?.plan ??
    (await planDoses(request, amountsOfMix(mix, request), kit, { known, solubility, offers: offers && made }));
  return { result, plan, wished };
}
