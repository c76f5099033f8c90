import type { GivenResult } from '../blend/given-types.js';
import type { BlendResult } from '../feed/results.js';
import { blendSheet } from './blend.js';
import { givenTitle } from './given.js';
import type { PenScale } from './mix.js';
import { severalSheets } from './several.js';
import { list, type Sheet } from './sheet.js';
import { volumeText } from './volume.js';

/** Every feed of a bench: an overview first where there are several, and the cautions once. */
export const blendSheets = (
  results: readonly (GivenResult | BlendResult)[],
  pen: PenScale | null,
  allPrices: boolean,
): Sheet[] => severalSheets(results, (result) => blendSheet(result, pen, allPrices), overview);

function overview(results: readonly (GivenResult | BlendResult)[]): Sheet {
  const made = results.filter(({ status }) => status === 'made').length;
  return {
    title:
      made === results.length ? `${made} feeds, each can be mixed` : `${made} of ${results.length} feeds can be mixed`,
    blocks: [list(results.map(lineOf))],
  };
}

function lineOf(result: GivenResult | BlendResult): string {
  if (result.status !== 'made') return `${result.feed.name}: no feed keeps every limit`;
  if (!('given' in result)) return `${result.feed.name}: the bare ${result.goal} mix`;
  const { plan } = result.given;
  const doses = plan.items.map(({ product, chosen }) => `${chosen.words} ${product.name || product.id}`).join(' + ');
  return `${givenTitle(result)}: ${doses} in ${volumeText(plan.batchLitres)}`;
}
