/**
 * The mixing sheet of a six-item feed, from the texts of its files to the last line (blend, rounding, sureness, readings, text), once the
 * program is warm. To stay below 300 ms; the very first sheet of a process takes longer while the engine compiles, see DEVELOPERS.md.
 */
import { bench, describe } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { blendSheet } from '../../src/report/blend.js';
import { sheetText } from '../../src/report/sheet-page/index.js';
import { renderText } from '../../src/report/text.js';
import { SIX_ITEMS } from '../page/six-items.js';

const file = (name: keyof typeof SIX_ITEMS) => ({ name, text: SIX_ITEMS[name] });
const files = { bench: file('bench.yaml'), shelf: file('shelf.csv') };
const PLAIN = { columns: 80, colour: false };

describe('a mixing sheet of six items', () => {
  bench('sheet', async () => {
    const { results } = await mixingSheets(files, {});
    sheetText(results[0]!, PLAIN);
  });
  bench('blend alone', async () => {
    const { results, pen } = await blendFeeds(files, {});
    renderText(blendSheet(results[0]!, pen), PLAIN);
  });
});
