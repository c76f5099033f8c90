import { adviceJson } from '../report/json/assess.js';
import type { Catalog } from '../catalog/catalog.js';
import { translateAdvice } from '../advice/translate-advice.js';
import type { OwnFeed } from '../advice/own-feed.js';
import type { Advice } from '../advice/types.js';
import { unwrap } from '../problem.js';
import { resolveProgramme } from '../programme/resolve.js';
import { adviceSheet } from '../report/advice.js';
import { Collected } from './collect.js';
import type { Given, Outcome } from './command.js';
import { type FeedInputs, feedRequests } from './feed-input.js';

/** What advice in words comes to, held against the one feed that is named, if there is one with a shelf. */
export async function adviceOutcome(
  advice: Advice | undefined,
  inputs: FeedInputs,
  catalog: Catalog,
  given: Given,
  collected: Collected,
): Promise<Outcome> {
  if (inputs.specs.length === 1) feedRequests(inputs, catalog, collected);
  const own = ownFeed(inputs, catalog);
  // without a feed of one's own no water is needed, so none is missed
  if (own === null) collected.forget('water-assumed');
  const warnings = collected.settle();
  const result = unwrap(await translateAdvice(advice!, own, { field: 'advice' }));
  return {
    exit: result.status === 'outside' ? 3 : 0,
    json: adviceJson(result),
    sheets: [adviceSheet(result, blendCommand(given), inputs.pen)],
    warnings,
  };
}

function ownFeed(inputs: FeedInputs, catalog: Catalog): OwnFeed | null {
  const [spec] = inputs.specs;
  if (!spec || inputs.specs.length > 1 || inputs.shelf.products.length === 0) return null;
  const at = (percent: number): ReturnType<OwnFeed['at']> => {
    const specs = [{ ...spec, strength: { kind: 'percent' as const, percent } }];
    return feedRequests({ ...inputs, specs }, catalog, new Collected())[0] ?? null;
  };
  const collected = new Collected();
  const full = collected.take(resolveProgramme(catalog, spec.plants, spec.medium, spec.phase, spec.where));
  const [now] = feedRequests(inputs, catalog, collected);
  return full && now ? { at, percent: 100 * now.header.strengthFactor, full, header: now.header } : null;
}

/** The blend command of the same feed, without its strength. */
function blendCommand(given: Given): string {
  const options = REPEATED.flatMap((name) =>
    given.takes(name) ? given.texts(name).map((text) => `--${name} ${quoted(text)}`) : [],
  );
  return ['velamen blend', ...new Set(options)].join(' ');
}

const REPEATED = ['bench', 'feed', 'plants', 'medium', 'phase', 'shelf', 'water', 'currency', 'nh4', 'rule'] as const;
const quoted = (text: string): string => (/^[\w./,=-]+$/.test(text) ? text : `"${text}"`);
