import type { OwnFeed } from '../advice/own-feed.js';
import { translateAdvice } from '../advice/translate-advice.js';
import type { Advice, AdviceResult } from '../advice/types.js';
import { unwrap } from '../problem.js';
import { resolveProgramme } from '../programme/resolve.js';
import type { Answer } from './answer.js';
import { Collected } from './collected.js';
import { givenMix } from '../blend/given.js';
import { productsKnown } from './recipe-products.js';
import { feedRequests, requestOf } from './feed-requests.js';
import { ownOfGrade } from './own-of-grade.js';
import type { OpenBench } from './opened.js';

/** What advice in words comes to, held against the one feed that is meant, if there is one with a shelf. */
export async function adviceHeld(
  advice: Advice | undefined,
  open: OpenBench,
  collected: Collected,
): Promise<Answer<AdviceResult>> {
  if (open.feeds.length === 1) feedRequests(open, collected);
  const own = ownFeed(open);
  // without a feed of one's own no water is needed, so none is missed
  if (own === null) collected.forget('water-assumed');
  const warnings = collected.settle();
  const result = unwrap(await translateAdvice(advice!, own, { field: 'advice' }, ownOfGrade(advice!, open)));
  return { met: result.status !== 'outside', result, warnings };
}

function ownFeed(open: OpenBench): OwnFeed | null {
  const [spec] = open.feeds;
  if (!spec || open.feeds.length > 1 || open.shelf.products.length === 0) return null;
  const at = (percent: number): ReturnType<OwnFeed['at']> =>
    requestOf({ ...spec, strength: { kind: 'percent', percent } }, open, new Collected()) ?? null;
  const collected = new Collected();
  const full = collected.take(resolveProgramme(open.catalog, spec.plants, spec.medium, spec.phase, spec.where));
  const now = requestOf(spec, open, collected);
  const { kit, catalog } = open;
  const mix: OwnFeed['mix'] = (request) =>
    givenMix(request, { kit, known: productsKnown(catalog), by: 'measure', offers: false });
  return full && now ? { at, mix, percent: 100 * now.header.strengthFactor, full, header: now.header } : null;
}
