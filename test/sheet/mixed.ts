import type { MixingSheet, Sheet } from '../../src/sheet/mixing-sheet.js';

/** A sheet that must be there. */
export function mixed(sheet: Sheet): MixingSheet {
  if (sheet.status === 'cannot') throw new Error(`no sheet: ${sheet.why.kind}`);
  return sheet;
}
