import { mixingSheets } from '../desk/mixing-sheets.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { A_FEED, A_SHELF } from './feed-options.js';
import { formsOfSheet, paperOf, sheetForms } from './sheet-forms.js';
import { wishesOf } from './wishes.js';

/** The mixing sheet: doses that hands can measure, in an order that does not cloud, with the reading after each. */
export const sheetCommand: Command = {
  name: 'sheet',
  examples: [
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium',
      says: 'what to measure with your own spoons and scale, in which order, and what the pen shows after each',
    },
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium --mix "1 US gal" --to sheet.html',
      says: 'for another can, and as a page to print on A4, Letter or A6',
    },
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium --jug-label',
      says: 'the label for the jug',
    },
  ],
  about: [
    'Prints the feed of `blend` as whole spoonfuls, drops, syringe marks or scale steps, chosen together so that every limit still holds, and prints the sheet. --to writes it as a file as well: a page, a PDF (which needs a browser on this machine), CSV, JSON or text.',
    'Where the tools cannot measure it, or no feed keeps every limit, the sheet of the nearest doses is printed, says what is missed, and the exit code is 3; so it is where --sure asks for more than any doses reach.',
  ],
  options: [
    'mix',
    'date',
    'readingOfWater',
    'near',
    'sure',
    'by',
    'atMost',
    'one',
    'bare',
    'closest',
    ...A_FEED,
    ...A_SHELF,
    'temperature',
    'jugLabel',
    'paper',
    'full',
    ...OUT,
  ],
  forms: formsOfSheet,
  async run(given, io) {
    const { paper, problems } = paperOf(given.words, given.outputs, io);
    const { met, results, warnings } = await mixingSheets(benchTexts(given, io, problems), wishesOf(given));
    return { exit: met ? 0 : 3, forms: sheetForms(results, paper, given.words, io), warnings };
  },
};
