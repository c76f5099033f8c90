import { nearest, type Problem, problem, type Where } from '../problem.js';
import {
  commaNotes,
  identityOf,
  inMilliSiemens,
  invisibleIn,
  type MilliSiemensPerCm,
  milliSiemensPerCm,
  type Money,
  type Read,
  readConductivity,
  readMoney,
  readPlainNumber,
  unread,
} from '../units/index.js';
import { shorten } from './csv.js';
import type { Evidence } from '../label/product.js';
import type { Row } from './table.js';

/** What a number may be. `unit` may be written behind it and is dropped. */
export interface Range {
  least: number;
  most: number;
  unit?: string;
}

/** The number in a cell, undefined where it is empty or refused. */
export function numberCell(row: Row, column: string, range: Range, problems: Problem[]): number | undefined {
  const text = row.text(column);
  if (text === undefined) return undefined;
  return rangedNumber(text, range, row.where(column), row.decimalComma, problems);
}

/** A number written as text, with or without its unit, within its range. */
export function rangedNumber(
  text: string,
  range: Range,
  where: Where,
  decimalComma: boolean,
  problems: Problem[],
): number | undefined {
  const units = range.unit === undefined ? [] : [range.unit, range.unit.split(' ')[0]!];
  return withinRange(readPlainNumber(text, units, { decimalComma }), text, range, where, problems);
}

/** What was read of a text, where it lies within its range. */
export function withinRange(
  read: Read<number>,
  text: string,
  range: Range,
  where: Where,
  problems: Problem[],
): number | undefined {
  const expected = `a number${range.unit ? ` in ${range.unit}` : ''} from ${range.least} to ${range.most}`;
  if (!read.ok) {
    problems.push(
      read.why === 'sign'
        ? problem('number-negative', where, `"${text}"`, expected, 'It cannot be below zero.')
        : read.why === 'unclear'
          ? problem('number-unclear', where, read.found, read.expected, read.fix)
          : problem('number-expected', where, shorten(text), expected, numberFix(text)),
    );
    return undefined;
  }
  if (read.value < range.least || read.value > range.most) {
    const fix = 'Check the number, its decimal point and its unit.';
    problems.push(problem('number-range', where, `"${text}"`, expected, fix));
    return undefined;
  }
  problems.push(...commaNotes(read.comma, where));
  return read.value;
}

/** The conductivity in a cell, in mS/cm; a bare number is in mS/cm. */
export function conductivityCell(
  row: Row,
  column: string,
  range: Range,
  problems: Problem[],
): MilliSiemensPerCm | undefined {
  const text = row.text(column);
  if (text === undefined) return undefined;
  const where = row.where(column);
  const read = readConductivity(text, { decimalComma: row.decimalComma });
  const known = read.ok && read.value.unit === 'ppm' ? unread('other', `"${text}"`, 'mS/cm', 'Write mS/cm.') : read;
  const given = known.ok ? { ...known, value: inMilliSiemens(known.value) } : known;
  const within = withinRange(given, text, range, where, problems);
  return within === undefined ? undefined : milliSiemensPerCm(within);
}

/** The money in a cell, with the currency beside it where one is written. */
export function moneyCell(row: Row, column: string, range: Range, problems: Problem[]): Money | undefined {
  const text = row.text(column);
  if (text === undefined) return undefined;
  return rangedMoney(text, range, row.where(column), row.decimalComma, problems);
}

/** Money written as text, within its range. */
export function rangedMoney(
  text: string,
  range: Range,
  where: Where,
  decimalComma: boolean,
  problems: Problem[],
): Money | undefined {
  const read = readMoney(text, { decimalComma });
  const amount = withinRange(read.ok ? { ...read, value: read.value.amount } : read, text, range, where, problems);
  return read.ok && amount !== undefined ? read.value : undefined;
}

function numberFix(text: string): string {
  if (/^[<>~≈]/.test(text)) return 'Leave the cell empty where it is not known.';
  if (/^[\d.,]/.test(text)) return 'Write the number alone.';
  return 'Write a number, or leave the cell empty; is this the right column?';
}

/** One of a few words; synonyms map to the word meant. */
export function choiceCell<T extends string>(
  row: Row,
  column: string,
  choices: ReadonlyMap<string, T>,
  problems: Problem[],
): T | undefined {
  const text = row.text(column);
  if (text === undefined) return undefined;
  const found = choices.get(text.toLowerCase());
  if (found === undefined) {
    const known = [...new Set(choices.values())].join(' or ');
    const guess = text.length > 40 ? undefined : nearest(text, choices.keys(), 1)[0];
    const fix =
      guess === undefined ? `Write ${known}; is this the right column?` : `Did you mean ${choices.get(guess)}?`;
    problems.push(problem('choice', row.where(column), shorten(text), known, fix));
  }
  return found;
}

/** A cell that must be filled in; '' where it is not. A missing column is told once, at the header. */
export function requiredCell(row: Row, column: string, problems: Problem[]): string {
  const text = row.text(column);
  if (text === undefined && row.has(column)) {
    problems.push(
      problem('cell-empty', row.where(column), 'an empty cell', `a value for ${column}`, `Fill in ${column}.`),
    );
  }
  return text ?? '';
}

/** The parts of a `;`-separated cell. */
export function listCell(row: Row, column: string): string[] {
  return (row.text(column) ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

/** How well a row is supported; `grower` where it does not say. */
export function evidenceOf(row: Row, problems: Problem[]): Evidence {
  const evidence = choiceCell(row, 'evidence', EVIDENCE, problems) ?? 'grower';
  if ((evidence === 'trial' || evidence === 'handbook') && row.text('source') === undefined) {
    problems.push(
      problem(
        'source-missing',
        row.where('source'),
        `evidence "${evidence}" without a source`,
        'the trial or handbook by name',
        'Name it in source.',
      ),
    );
  }
  return evidence;
}

const EVIDENCE: ReadonlyMap<string, Evidence> = new Map(
  (['trial', 'handbook', 'grower practice', 'from memory, unchecked', 'invented', 'grower'] as const).map((e) => [
    e,
    e,
  ]),
);

/** An id given twice, or two that only case, width or accents tell apart, is a Problem that names both lines; so is a mark nobody sees. */
export function uniqueIds(rows: readonly { id: string; where: Where }[]): Problem[] {
  const first = new Map<string, { id: string; where: Where }>();
  const problems: Problem[] = [];
  for (const row of rows) {
    const where = { ...row.where, field: 'id' };
    const mark = invisibleIn(row.id);
    if (mark !== null) problems.push(invisible(row.id, mark, where));
    const key = identityOf(row.id);
    const seen = first.get(key);
    if (row.id === '' || !seen) {
      first.set(key, row);
      continue;
    }
    const again =
      seen.id === row.id ? `id ${shorten(row.id)} again` : `id ${shorten(row.id)} beside ${shorten(seen.id)}`;
    problems.push(
      problem(
        'id-twice',
        where,
        `${again}, first on line ${seen.where.line}`,
        'each id once, whatever its case',
        'Rename one of them, or take it out.',
      ),
    );
  }
  return problems;
}

/** A name with a mark in it that nobody sees, so that nobody could type it. */
export const invisible = (name: string, mark: string, where: Where): Problem =>
  problem(
    'name-invisible',
    where,
    `${shorten(name)} with a mark that nobody sees (${mark})`,
    'letters that can be typed',
    'Type it anew.',
  );
