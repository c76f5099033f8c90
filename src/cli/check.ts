import { checkBench } from '../desk/check.js';
import { checkSheet } from '../report/check.js';
import { checkJson } from '../report/json/check.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { ofSheets } from './forms.js';
import { wishesOf } from './wishes.js';

/** A whole bench read, with every problem and every doubt. */
export const checkCommand: Command = {
  name: 'check',
  examples: [
    { line: 'velamen check', says: 'bench.yaml and shelf.csv of the current folder' },
    { line: 'velamen check --bench examples/spoons-alone', says: 'another bench' },
  ],
  about: [
    'Reads bench.yaml and shelf.csv and tells everything that is wrong (exit code 2) and everything that is doubtful or left to be assumed (exit code 0): labels that look misread, bulk densities and prices that are missing, water, kit and pen that nobody named. Whether the feeds can be mixed is the question of blend.',
  ],
  options: ['bench', 'shelf', 'market', 'full', ...OUT],
  async run(given, io) {
    const { result, warnings } = await checkBench(benchTexts(given, io), wishesOf(given));
    return { exit: 0, forms: ofSheets(checkJson(result), [checkSheet(result)]), warnings };
  },
};
