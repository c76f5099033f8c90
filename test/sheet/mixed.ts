import type { MixingSheet, SheetOfFeed } from '../../src/sheet/mixing-sheet.js';

/** A sheet that must be there. */
export function mixed(sheet: SheetOfFeed): MixingSheet {
  if (sheet.status === 'cannot') throw new Error(`no sheet: ${sheet.why.kind}`);
  return sheet;
}
