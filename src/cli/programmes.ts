import { programmesOf } from '../desk/programmes.js';
import { problem } from '../problem.js';
import { programmesSheet } from '../report/programmes.js';
import type { Given, Outcome } from './command.js';
import { wishesOf } from './wishes.js';

/** The programmes of the catalog, narrowed by --plants, --medium and --phase. */
export function listProgrammes(given: Given): Outcome {
  const idle = given.named().filter((name) => !NARROWING.has(name));
  const problems = idle.map((name) =>
    problem(
      'not-with-programmes',
      { field: `--${name}` },
      `--${name} with --programmes`,
      '--plants, --medium or --phase beside --programmes',
      `Leave out --${name}.`,
    ),
  );
  const { result, warnings } = programmesOf({ problems }, wishesOf(given));
  return { exit: 0, json: result, sheets: [programmesSheet(result.programmes)], warnings };
}

const NARROWING: ReadonlySet<string> = new Set(['programmes', 'plants', 'medium', 'phase', 'json', 'csv', 'html']);
