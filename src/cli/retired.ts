import type { OptionKey } from '../desk/options/table.js';
import { dashed } from '../desk/options/option.js';
import { type Problem, problem } from '../problem.js';

/** What an option is called now: another option, or a file that is written. */
type Now = OptionKey | { to: string };

/** Old spellings by command; each is refused with the new one named. */
const RETIRED: Readonly<Record<string, Readonly<Record<string, Now>>>> = {
  blend: { volume: 'mix' },
  reach: { volume: 'mix' },
  concentrate: { volume: 'mix' },
  sheet: { can: 'mix', volume: 'mix', pdf: { to: 'sheet.pdf' }, label: 'jugLabel' },
  meter: { can: 'brim', volume: 'measured', batch: 'mix' },
};

/** The old spellings of a command. */
export const retiredOf = (command: string): string[] => Object.keys(RETIRED[command] ?? {});

/** Tells what an old spelling is now: `--can is now --mix; write --mix "8 L"`. */
export function renamed(command: string, old: string, value: string): Problem {
  const now = RETIRED[command]![old]!;
  const said = value === '' ? '' : ` ${quoted(value)}`;
  const found = `--${old}${said}`;
  if (now === 'jugLabel') {
    const file = value === '' ? '' : ` --to ${quoted(value)}`;
    const fix = `--label is now --jug-label, and a file is named with --to: write --jug-label${file}.`;
    return problem('option-renamed', { field: `--${old}` }, found, '--jug-label', fix);
  }
  if (typeof now === 'object') {
    const fix = `Files are named with --to, by their ending: write --to${said || ` ${now.to}`}.`;
    return problem('option-renamed', { field: `--${old}` }, found, '--to', fix);
  }
  const fix = `--${old} is now ${dashed(now)}; write ${dashed(now)}${said || ' AMOUNT'}.`;
  return problem('option-renamed', { field: `--${old}` }, found, dashed(now), fix);
}

/** `--html page.html` of old: the switch prints, a file is named with --to. */
export const fileAfterForm = (form: string, file: string): Problem =>
  problem(
    'option-renamed',
    { field: `--${form}` },
    `--${form} ${quoted(file)}`,
    `--${form} alone, which prints; or --to`,
    `Files are named with --to, by their ending: write --to ${quoted(file)}.`,
  );

const quoted = (text: string): string => (/^[\w./,=:-]+$/.test(text) ? text : `"${text}"`);
