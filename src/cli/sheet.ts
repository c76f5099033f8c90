import { mixingSheets, type SheetOfFeed } from '../desk/mixing-sheets.js';
import { blendSheet } from '../report/blend.js';
import { blendJson } from '../report/json/blend.js';
import { sheetJson } from '../report/json/sheet.js';
import { sheetText } from '../report/sheet-page/index.js';
import { renderText } from '../report/text.js';
import { benchTexts } from './bench-texts.js';
import type { Command } from './command.js';
import { FEED_OPTIONS, METER_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { textOptions } from './io.js';
import { jsonText } from './json.js';
import { sheetFiles } from './sheet-files.js';
import { wishesOf } from './wishes.js';

const { mix: _, ...ON_A_FEED } = FEED_OPTIONS;

/** The mixing sheet: doses that hands can measure, in an order that does not cloud, with the reading after each. */
export const sheetCommand: Command = {
  name: 'sheet',
  summary: 'the mixing sheet for the sink: doses, order, readings; as text, page, PDF, label',
  examples: [
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium',
      says: 'what to measure with your own spoons and scale, in which order, and what the pen shows after each',
    },
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium --mix "1 US gal" --html sheet.html --label jug.txt',
      says: 'for another can, with a page to print (on A4, Letter or A6) and a label for the jug',
    },
  ],
  about: [
    'Turns the blend into whole spoonfuls, drops, syringe marks or scale steps, chosen together so that every limit still holds, and prints the sheet. Text goes to the terminal; --html, --csv, --pdf and --label write files beside it.',
    'Where the tools cannot measure it, or no feed keeps every limit, the sheet of the nearest doses is printed, says what is missed, and the exit code is 3; so it is where --sure asks for more than any doses reach.',
  ],
  options: {
    mix: {
      value: 'AMOUNT',
      says: 'how much to mix: "4 L", "1 US gal", or a can of the kit (default: the batch of the feed)',
    },
    date: { value: 'DATE', says: 'the day, as 2026-11-25 (default: a line to fill in)' },
    'reading-of-water': {
      value: 'READING',
      says: 'what the pen shows in the water alone, in mS/cm ("0.02", "20 µS/cm", "10 ppm" on your pen); the readings follow it',
    },
    sure: { value: 'SHARE', says: 'doses that keep the bands in this share of batches: 90%' },
    closest: { says: 'as close as possible to the aims instead of cheapest' },
    'at-most': { value: 'K', says: 'use at most this many products' },
    html: { value: 'FILE', says: 'write a page that prints on one sheet' },
    pdf: { value: 'FILE', says: 'write it as PDF (needs a browser on this machine)' },
    paper: {
      value: 'PAPER',
      says: 'a4, letter or a6, for --html and --pdf (default: the printer’s own; a4 for --pdf)',
    },
    csv: { value: 'FILE', says: 'write the steps as CSV' },
    label: { value: 'FILE', says: 'write a label for the jug: a page where the name ends in .html, else text' },
    json: { says: 'one JSON object instead of text (shape: velamen schema sheet)' },
    ...ON_A_FEED,
    ...SHELF_OPTIONS,
    ...METER_OPTIONS,
  },
  formats: false,
  async run(given, io) {
    const files = sheetFiles(given, io);
    const asked = [benchTexts(given, io, files.problems), wishesOf(given)] as const;
    const { met, results, warnings, pen } = await mixingSheets(...asked);
    await files.write(results.flatMap(({ sheet }) => sheet ?? []));
    const textOf = (one: SheetOfFeed): string =>
      one.sheet === null
        ? renderText(blendSheet(one.blend, pen), textOptions(io))
        : sheetText(one.sheet, textOptions(io));
    const text = given.flag('json') ? jsonText(jsonOf(results[0]!)) : results.map(textOf).join('\n\n');
    return { exit: met ? 0 : 3, text, warnings };
  },
};

const jsonOf = (one: SheetOfFeed): object => (one.sheet === null ? blendJson(one.blend) : sheetJson(one.sheet));
