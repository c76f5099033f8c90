import { basename, resolve } from 'node:path';
import { cansOf } from '../desk/start/cans.js';
import { SCHEMA_FILE } from '../desk/start/bench-text.js';
import { startBench } from '../desk/start/start-bench.js';
import type { Wishes } from '../desk/wishes.js';
import { newFolderProblems, writeNew } from '../files/index.js';
import { Refusal } from '../problem.js';
import { startJson } from '../report/json/start.js';
import { startSheets } from '../report/start.js';
import { asked } from './dialog.js';
import { type Command, OUT } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';
import { textOf } from './text-of.js';
import { wishesOf } from './wishes.js';

/** A new bench from labels as printed, and what was told of plants, kit, pen and water. */
export const startCommand: Command = {
  name: 'start',
  examples: [
    { line: 'velamen start mine', says: 'asks what it has to know, and makes the folder mine' },
    {
      line: 'velamen start mine --label "12-6-12, nitrogen 12 % (10.5 % nitrate), calcium 4 %" --label "Epsom salt" --plants "moth orchids in bark" --mix "1 US gal" --kit "1 tsp, 1/4 tsp" --scale 500 --water rain',
      says: 'asks nothing: what is not told is assumed, and said',
    },
  ],
  about: [
    'Writes bench.yaml (water, kit, pen, feeds), shelf.csv (your labels) and a schema by which editors complete bench.yaml; never over a file that is there. Shows what it understood of each label beside what is printed, and ends with the cans that your shelf makes.',
    '--plants takes several groups here, each with its medium: "moth orchids in bark, pleurothallids in moss". Where the water is not known, --reading-of-water tells what the pen shows in it.',
  ],
  operands: { name: 'FOLDER', says: 'where the bench is made (default: the current folder)', most: 1 },
  options: [
    'label',
    'plants',
    'medium',
    'phase',
    'strength',
    'mix',
    'weekly',
    'rule',
    'kit',
    'scale',
    'gallon',
    'water',
    'readingOfWater',
    'currency',
    'full',
    ...OUT,
  ],
  async run(given, io) {
    const folder = given.operands[0] ?? '.';
    const taken = newFolderProblems(folder, [SCHEMA_FILE, 'shelf.csv', 'bench.yaml'], io.cwd);
    if (taken.length > 0) throw new Refusal(taken);
    const said = labelled(wishesOf(given), io);
    const { wishes, told } =
      io.ask && given.outputs.print === 'txt'
        ? await asked(said, io, io.ask)
        : { wishes: said, told: new Set<string>() };
    const { files, open, result, warnings } = await startBench(wishes, basename(resolve(io.cwd, folder)));
    writeNew(folder, files, io.cwd);
    const { results: cans, unfed, pen } = await cansOf(open);
    const made = { ...result, folder, cans, unfed, pen };
    return { exit: 0, forms: ofSheets(startJson(made), startSheets(made, told)), warnings };
  },
};

/** Labels that were named as files, by their text. */
const labelled = (wishes: Wishes, io: Io): Wishes =>
  wishes.label === undefined ? wishes : { ...wishes, label: wishes.label.map((text) => textOf(text, io)) };
