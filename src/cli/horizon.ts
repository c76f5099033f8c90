import { type Problem, problem } from '../problem.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';

/** Half a year: long enough that packs matter, short enough that powders keep. */
const USUAL_WEEKS = 26;
const WEEKS_IN_YEAR = 52;
/** Ten years. */
const MOST_WEEKS = 520;

/** Weeks to buy for, from --weeks, --months or --year. A year counts 52 weeks. */
export function horizonWeeks(given: Given, collected: Collected): number {
  const named = (['weeks', 'months'] as const).filter((name) => given.text(name) !== undefined);
  const count = named.length + (given.flag('year') ? 1 : 0);
  if (count > 1) {
    const found = [...named.map((name) => `--${name}`), ...(given.flag('year') ? ['--year'] : [])].join(' and ');
    collected.add(problem('two-horizons', {}, found, 'one of them', 'Keep the one you mean.'));
    return USUAL_WEEKS;
  }
  if (given.flag('year')) return WEEKS_IN_YEAR;
  const name = named[0];
  if (name === undefined) return USUAL_WEEKS;
  const text = given.text(name)!;
  const number = /^\s*(\d+(?:\.\d+)?|\.\d+)\s*$/.test(text) ? Number(text) : Number.NaN;
  const weeks = name === 'weeks' ? number : (number * WEEKS_IN_YEAR) / 12;
  if (weeks > 0 && weeks <= MOST_WEEKS) return weeks;
  collected.add(horizonProblem(name, text));
  return USUAL_WEEKS;
}

function horizonProblem(name: 'weeks' | 'months', text: string): Problem {
  const most = name === 'weeks' ? MOST_WEEKS : (MOST_WEEKS / WEEKS_IN_YEAR) * 12;
  return problem(
    'horizon',
    { field: `--${name}` },
    `"${text}"`,
    `a number of ${name} above 0, at most ${most}`,
    `Write for example --${name} ${name === 'weeks' ? 26 : 6}.`,
  );
}
