import type * as z from 'zod';
import type { MixingSheet } from '../../sheet/mixing-sheet.js';
import type { sheetShape } from '../sheet-shapes.js';
import { orderLines } from '../says/order.js';
import { cautionsJson } from './mix.js';

/** What `sheet --json` prints. */
export const sheetJson = (sheet: MixingSheet): z.infer<typeof sheetShape> => ({
  ...sheet,
  order: { verdict: sheet.order.verdict, says: orderLines(sheet.order) },
  cautions: cautionsJson(sheet.cautions),
});
