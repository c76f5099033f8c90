import { atDoor } from '../../door.js';
import { type Checked, problem, type Where } from '../../problem.js';
import { BOUNDS, isWithin, readPlainNumber } from '../../units/index.js';
import { refusedText, taken } from './refused.js';

/** Half a year: long enough that packs matter, short enough that powders keep. */
export const USUAL_WEEKS = 26;
const WEEKS_IN_YEAR = 52;

/** How long to buy for, as the options say it; at most one of the three. */
export interface Horizon {
  weeks?: string | undefined;
  months?: string | undefined;
  year: boolean;
}

/** Weeks to buy for. A year counts 52 weeks; half of one where nothing is said. */
export function parseHorizon(said: Horizon): Checked<number> {
  const named = (['weeks', 'months'] as const).filter((name) => said[name] !== undefined);
  if (named.length + (said.year ? 1 : 0) > 1) {
    const found = [
      ...named.map((name) => `--${name}`),
      ...(said.year ? [atDoor({ typed: '--year', page: 'a year' })] : []),
    ].join(' and ');
    return { ok: false, problems: [problem('two-horizons', {}, found, 'one of them', 'Keep the one you mean.')] };
  }
  const name = named[0];
  const usual = said.year ? WEEKS_IN_YEAR : USUAL_WEEKS;
  if (name === undefined) return { ok: true, value: usual, warnings: [] };
  return name === 'weeks' ? parseWeeks(said.weeks!) : parseMonths(said.months!);
}

/** A number of weeks, up to ten years. */
export const parseWeeks = (text: string, where: Where = { field: '--weeks' }): Checked<number> =>
  spanOf('weeks', text, where);

/** A number of months, a twelfth of 52 weeks each; in weeks. */
export const parseMonths = (text: string, where: Where = { field: '--months' }): Checked<number> =>
  spanOf('months', text, where);

function spanOf(name: 'weeks' | 'months', text: string, where: Where): Checked<number> {
  const read = readPlainNumber(text, [name]);
  const weeks = !read.ok ? 0 : name === 'weeks' ? read.value : (read.value * WEEKS_IN_YEAR) / 12;
  if (read.ok && isWithin('weeks', weeks)) return taken(weeks, read, where);
  const most = name === 'weeks' ? BOUNDS.weeks.most : (BOUNDS.weeks.most / WEEKS_IN_YEAR) * 12;
  return refusedText(
    text,
    read,
    'horizon',
    where,
    `a number of ${name} above 0, at most ${most}`,
    atDoor({
      typed: `Write for example --${name} ${name === 'weeks' ? 26 : 6}.`,
      page: `Write for example ${name === 'weeks' ? 26 : 6}.`,
    }),
  );
}
