import type * as z from 'zod';
import type { GivenMade, GivenResult } from '../../blend/given-types.js';
import type { Proof } from '../../feed/proof.js';
import type { BlendResult, NearestMix } from '../../feed/results.js';
import type { fedShape } from '../blend-shapes.js';
import type { Typed } from '../command-line.js';
import { givenJson, measuresJson } from './given.js';
import { noneGivenJson } from './none-given.js';
import { blendNoteSays, silenceSays } from '../says/blend.js';
import { careJson, missesJson, mixAlone } from './mix.js';
import { pricesJson } from './prices.js';
import { proofJson } from './proof.js';
import { wayJson, whyNotJson } from './why-not.js';

/** What `blend --json` prints. A feed that cannot be made has no items, only what stands in its way and the nearest there is. */
export function blendJson(result: GivenResult | BlendResult, typed: Typed | null = null): z.infer<typeof fedShape> {
  const { goal, feed, cautions } = result;
  const schema = 'velamen.blend/3' as const;
  const unknowns = result.unknowns.map((silence) => silenceSays(silence, result));
  const notes = result.notes.map((note) => blendNoteSays(note, feed.currency));
  const told = { unknowns, notes, ...careJson(cautions), proof: proofJson(result.proof) };
  switch (result.status) {
    case 'made': {
      const { proof, prices } = result;
      const status = proof.verdict === 'optimal' ? 'optimal' : doubt(proof);
      return {
        schema,
        status,
        goal,
        feed,
        ...mixAlone(result),
        ...('given' in result ? measured(result) : {}),
        ...told,
        ...(prices ? { prices: pricesJson(prices, feed.currency) } : {}),
      };
    }
    case 'cannot': {
      const why = whyNotJson(result);
      return {
        schema,
        status: 'infeasible',
        goal,
        feed,
        ...('given' in result ? noneGivenJson(result.given, feed.name, typed) : {}),
        ...told,
        ...why,
        nearest: nearestJson(result.nearest),
      };
    }
    case 'open': {
      return {
        schema,
        status: doubt(result.proof),
        goal,
        feed,
        ...('given' in result ? noneGivenJson(result.given, feed.name, typed) : {}),
        ...told,
        relaxations: result.relaxations.map(wayJson),
        nearest: nearestJson(result.nearest),
      };
    }
  }
}

const doubt = ({ unfinished }: Proof) => (unfinished ? ('unfinished' as const) : ('uncertified' as const));

/** The items with how they are measured, and what is told of a feed that is given. */
function measured({ given, ...mix }: GivenMade) {
  const { items } = mixAlone(mix);
  return {
    items: items.map((item) => ({ ...item, measures: measuresJson(given, item.id) })),
    ...givenJson(given, mix.elements),
  };
}

const nearestJson = (nearest: NearestMix | null) =>
  nearest && { ...mixAlone(nearest), misses: missesJson(nearest.misses) };
