import { type Caution, inOneList } from '../can/cautions.js';
import { cautionBlocks } from './blend.js';
import type { Sheet } from './sheet.js';

/**
 * The reports of several results as one: the overview first, each report without its cautions, and those of all of them once at the end.
 * A single result is reported as ever.
 * @param sheetOf reports one result, with what its `cautions` hold
 */
export function severalSheets<R extends { status: string; cautions?: readonly Caution[] }>(
  results: readonly R[],
  sheetOf: (result: R) => Sheet,
  overview: (results: readonly R[]) => Sheet,
): Sheet[] {
  if (results.length < 2) return results.map(sheetOf);
  const [, ...blocks] = cautionBlocks(inOneList(results.map((result) => result.cautions ?? [])));
  return [
    overview(results),
    ...results.map((result) => sheetOf(result.cautions === undefined ? result : { ...result, cautions: [] })),
    ...(blocks.length === 0 ? [] : [{ title: 'Take care', blocks }]),
  ];
}
