import { type Checked, checked, type Problem, problem } from '../problem.js';
import { formatFixed } from '../units/index.js';

/** 10,000 products with notes are about 3 MB; a file past this is some other file. It takes about 4 s to split. */
const MOST_CHARACTERS = 8_000_000;
/** More than all columns and their notes. */
export const MOST_COLUMNS = 200;
/** What a reader can use in one go. */
const MOST_PROBLEMS = 50;

/** Why a text is not worth reading: too long, or no text at all. */
export function refusedText(text: string, file: string, most = MOST_CHARACTERS): Problem | null {
  // a caller without types
  if (typeof text !== 'string')
    return problem('no-text', { file }, typeof text, 'a text', 'Pass the text of the file.');
  if (text.length > most) {
    return problem(
      'file-too-long',
      { file },
      `${formatFixed(text.length / 1e6, 1)} MB`,
      `at most ${most / 1e6} MB`,
      'Check that this is the right file, or split it.',
    );
  }
  const line = binaryLine(text);
  if (line === null) return null;
  return problem(
    'file-binary',
    { file, line },
    'bytes that are not text',
    'plain text in UTF-8',
    'A spreadsheet must be exported as CSV (UTF-8) first.',
  );
}

/**
 * Refuses a value when any problem is an error. Problems stand in the order of the lines; past the fiftieth of either kind only
 * their number is told, and of decimal commas only the first.
 */
export function capped<T>(value: T, problems: readonly Problem[]): Checked<T> {
  const ordered = byLine(problems);
  const errors = ordered.filter((p) => p.severity === 'error');
  const warnings = firstCommas(ordered.filter((p) => p.severity === 'warning'));
  return checked(value, [...shortList(errors), ...shortList(warnings)]);
}

function byLine(problems: readonly Problem[]): Problem[] {
  const files = [...new Set(problems.map((p) => p.where.file))];
  return files.flatMap((file) => problems.filter((p) => p.where.file === file).sort((a, b) => lineOf(a) - lineOf(b)));
}

function firstCommas(warnings: readonly Problem[]): Problem[] {
  const commas = new Map<string | undefined, Problem[]>();
  for (const p of warnings) {
    const same = commas.get(p.where.file);
    if (p.code === 'decimal-comma' && same) same.push(p);
    else if (p.code === 'decimal-comma') commas.set(p.where.file, [p]);
  }
  return warnings.flatMap((p) => {
    const same = p.code === 'decimal-comma' ? commas.get(p.where.file)! : [p];
    if (p !== same[0]) return [];
    const more = same.length - 1;
    return [more === 0 ? p : { ...p, found: `${p.found} and ${more} more`, fix: `${p.fix} The others likewise.` }];
  });
}

function shortList(problems: readonly Problem[]): Problem[] {
  const rest = problems.length - MOST_PROBLEMS;
  const sample = problems[MOST_PROBLEMS];
  if (!sample) return [...problems];
  const { file } = sample.where;
  return [
    ...problems.slice(0, MOST_PROBLEMS),
    {
      code: 'more-problems',
      severity: sample.severity,
      where: file === undefined ? {} : { file },
      found: `${rest} more like these`,
      expected: 'none',
      fix: 'Mend the first ones, then look again.',
    },
  ];
}

/** The line of the first control character that no text file has, or null. */
function binaryLine(text: string): number | null {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  const at = text.search(/[\u0000-\u0008\u000E-\u001F]/);
  return at < 0 ? null : text.slice(0, at).split('\n').length;
}

/** What has no line, such as how many more there are, stands last. */
const lineOf = (p: Problem): number => p.where.line ?? Number.MAX_SAFE_INTEGER;
