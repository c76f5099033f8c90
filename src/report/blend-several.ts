import type { GivenResult } from '../blend/given-types.js';
import type { BlendResult } from '../feed/results.js';
import { blendSheet } from './blend.js';
import { givenTitle } from './given.js';
import type { PenScale } from './mix.js';
import type { Typed } from './command-line.js';
import { lackSays } from './says/none-given.js';
import { severalSheets } from './several.js';
import { list, type Sheet } from './sheet.js';
import { volumeText } from './volume.js';

/** Every feed of a bench: an overview first where there are several, and the cautions once. */
export const blendSheets = (
  results: readonly (GivenResult | BlendResult)[],
  pen: PenScale | null,
  allPrices: boolean,
  typed: Typed | null = null,
): Sheet[] => severalSheets(results, (result) => blendSheet(result, pen, allPrices, typed), overview);

function overview(results: readonly (GivenResult | BlendResult)[]): Sheet {
  const made = results.filter(({ status }) => status === 'made').length;
  return {
    title:
      made === results.length ? `${made} feeds, each can be mixed` : `${made} of ${results.length} feeds can be mixed`,
    blocks: [list(results.map(lineOf))],
  };
}

function lineOf(result: GivenResult | BlendResult): string {
  if (result.status !== 'made') {
    const none = `${result.feed.name}: no feed ${result.proof.unfinished ? 'found yet' : 'keeps every limit'}`;
    return 'given' in result && result.status === 'cannot' ? `${none}; ${lackSays(result.given)}` : none;
  }
  if (!('given' in result)) return `${result.feed.name}: the bare ${result.goal} mix`;
  const { plan } = result.given;
  const doses = plan.items.map(({ product, chosen }) => `${chosen.words} ${product.name || product.id}`).join(' + ');
  return `${givenTitle(result)}: ${doses} in ${volumeText(plan.batchLitres)}`;
}
