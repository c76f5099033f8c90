import { dashed } from '../desk/options/option.js';
import type { OptionKey } from '../desk/options/table.js';
import { programmesOf } from '../desk/programmes.js';
import { problem } from '../problem.js';
import { programmesJson } from '../report/json/programmes.js';
import { programmesSheet } from '../report/programmes.js';
import { type Given, OUT, type Outcome } from './command.js';
import { ofSheets } from './forms.js';
import { wishesOf } from './wishes.js';

/** The programmes of the catalog, narrowed by --plants, --medium and --phase. */
export function listProgrammes(given: Given): Outcome {
  const idle = Object.keys(given.words).filter((key) => !NARROWING.includes(key as OptionKey));
  const problems = idle.map((key) =>
    problem(
      'not-with-programmes',
      { field: dashed(key) },
      `${dashed(key)} with --programmes`,
      '--plants, --medium or --phase beside --programmes',
      `Leave out ${dashed(key)}.`,
    ),
  );
  const { result, warnings } = programmesOf({ problems }, wishesOf(given));
  return { exit: 0, forms: ofSheets(programmesJson(result), [programmesSheet(result)]), warnings };
}

const NARROWING: readonly OptionKey[] = ['programmes', 'plants', 'medium', 'phase', ...OUT];
