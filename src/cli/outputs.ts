import { extname, resolve } from 'node:path';
import type { Words } from '../desk/options/table.js';
import { type Problem, problem } from '../problem.js';
import { asks, FORMS, type Form, type Outputs } from './forms.js';
import type { Io } from './io.js';
import { targetProblems, writtenTwice } from './targets.js';

/** Reads --json, --csv, --html, --svg, --to and --replace against the forms that there are. */
export function readOutputs(words: Words, able: readonly Form[], io?: Io): { outputs: Outputs; problems: Problem[] } {
  const printed = PRINTED.filter((form) => words[form]);
  const files = (words.to ?? []).map((path) => ({ path, form: formOf(path) }));
  const known = files.filter((file): file is { path: string; form: Form } => file.form !== undefined);
  const outputs = { print: printed[0] ?? able[0]!, files: known, replace: words.replace === true };
  const problems = [
    ...(printed.length > 1 ? [twoForms(printed)] : []),
    ...printed.filter((form) => !able.includes(form)).map((form) => notThere(form, able)),
    ...files.filter(({ form }) => form === undefined || !able.includes(form)).map(({ path }) => ending(path, able)),
    ...twice(words.to ?? []),
    ...(words.replace && files.length === 0 ? [replaceAlone()] : []),
    ...(words.paper !== undefined && !asks(outputs, 'html') && !asks(outputs, 'pdf') ? [paperAlone()] : []),
  ];
  return { outputs, problems: [...problems, ...(io === undefined ? [] : targetProblems(outputs, io))] };
}

/** What can be printed on a terminal, besides text. */
const PRINTED = ['json', 'csv', 'html', 'svg'] as const;

function formOf(path: string): Form | undefined {
  const word = extname(path).slice(1).toLowerCase();
  return FORMS.find((form) => form === word || (form === 'html' && word === 'htm'));
}

const twoForms = (forms: readonly Form[]): Problem =>
  problem('two-formats', {}, forms.map((f) => `--${f}`).join(' and '), 'one format', 'Ask for one at a time.');

const notThere = (form: Form, able: readonly Form[]): Problem =>
  problem(
    'form-not-there',
    { field: `--${form}` },
    `--${form}`,
    listed(able.filter((other) => other !== 'pdf').map((other) => (other === 'txt' ? 'text' : `--${other}`))),
    form === 'svg' ? 'Only `blend --frontier` and `journal show` are drawn.' : `Leave out --${form}.`,
  );

const ending = (path: string, able: readonly Form[]): Problem =>
  problem(
    'ending',
    { field: '--to' },
    `"${path}"`,
    `a name that ends in ${listed(able.map((form) => `.${form}`))}`,
    'The ending says which form is written.',
  );

function twice(paths: readonly string[]): Problem[] {
  return paths.flatMap((path, i) => {
    const first = paths.findIndex((other) => resolve(other) === resolve(path));
    return first < i ? [writtenTwice(paths[first]!, path)] : [];
  });
}

const replaceAlone = (): Problem =>
  problem('replace-alone', { field: '--replace' }, '--replace alone', '--to with it', 'Add --to FILE.');

const paperAlone = (): Problem =>
  problem(
    'paper-alone',
    { field: '--paper' },
    '--paper alone',
    'a page or a PDF with it',
    'Add --html, or --to sheet.pdf.',
  );

/** `a, b or c`. */
const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
