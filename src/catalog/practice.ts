import { parseFormula } from '../chemistry/formula.js';
import type { Evidence } from '../label/product.js';
import { type Checked, type Problem, problem } from '../problem.js';
import { MEDIA, type Medium } from '../programme/programme.js';
import { choiceCell, evidenceOf, listCell, numberCell, requiredCell } from './cells.js';
import type { Column } from './columns.js';
import { capped } from './limits.js';
import { SOURCE_COLUMNS } from './shared-columns.js';
import { type Row, readTable } from './table.js';

/** What growers do through the year, and how what they mix from is kept. */
export interface Practice {
  rests: RestRow[];
  flushes: FlushRow[];
  humidities: HumidityRow[];
}

/** The files that say so. */
export const PRACTICE_FILES = ['rests', 'flushes', 'humidities'] as const;

/** How well a row is supported. */
export interface Supported {
  refs: readonly string[];
  source: string;
  evidence: Evidence;
  notes: string;
}

/** Months in which a plant group rests, first and last, 1 to 12, in the north; plants `*` for every other group. */
export interface RestRow extends Supported {
  plants: string;
  from: number;
  to: number;
}

/** How often pots of a medium are flushed, in weeks, with how many times what the empty pot holds; null where there is no pot. */
export interface FlushRow extends Supported {
  medium: Medium;
  everyWeeks: number;
  potVolumes: number | null;
}

/** Relative humidity at 30 °C, %, above which a powder of these salts draws water; no formulas for any other mixture. */
export interface HumidityRow extends Supported {
  name: string;
  formulas: readonly string[];
  humidity: number;
}

/** Reads `rests.csv`, `flushes.csv` and `humidities.csv`, with every Problem of all three at once. */
export function readPractice(texts: Readonly<Record<(typeof PRACTICE_FILES)[number], string>>): Checked<Practice> {
  const problems: Problem[] = [];
  const rowsOf = (file: (typeof PRACTICE_FILES)[number], columns: readonly Column[]): Row[] =>
    readTable(texts[file], `catalog/${file}.csv`, [...columns, ...SOURCE_COLUMNS], problems).rows;
  const number = (row: Row, column: string, least: number, most: number): number => {
    requiredCell(row, column, problems);
    return numberCell(row, column, { least, most }, problems) ?? least;
  };
  const practice: Practice = {
    rests: rowsOf('rests', REST_COLUMNS).map((row) => ({
      plants: requiredCell(row, 'plants', problems),
      from: number(row, 'from', 1, 12),
      to: number(row, 'to', 1, 12),
      ...supportOf(row, problems),
    })),
    flushes: rowsOf('flushes', FLUSH_COLUMNS).map((row) => ({
      medium: choiceCell(row, 'medium', MEDIUM, problems) ?? 'bark',
      everyWeeks: number(row, 'every_weeks', 1, 52),
      potVolumes: numberCell(row, 'pot_volumes', { least: 0.1, most: 10 }, problems) ?? null,
      ...supportOf(row, problems),
    })),
    humidities: rowsOf('humidities', HUMIDITY_COLUMNS).map((row) => ({
      name: requiredCell(row, 'name', problems),
      formulas: formulasOf(row, problems),
      humidity: number(row, 'humidity', 1, 100),
      ...supportOf(row, problems),
    })),
  };
  problems.push(...withoutDefault(practice));
  return capped(practice, problems);
}

const supportOf = (row: Row, problems: Problem[]): Supported => ({
  refs: listCell(row, 'refs'),
  source: row.text('source') ?? '',
  evidence: evidenceOf(row, problems),
  notes: row.text('notes') ?? '',
});

/** `NH4NO3 + CO(NH2)2`, or `blend` for any other mixture. */
function formulasOf(row: Row, problems: Problem[]): string[] {
  const text = requiredCell(row, 'formula', problems);
  if (text === 'blend' || text === '') return [];
  const formulas = text.split(' + ');
  for (const one of formulas) {
    const read = parseFormula(one, row.where('formula'));
    if (!read.ok) problems.push(...read.problems);
  }
  return formulas;
}

/** Every medium is flushed somehow, every group rests at some time, and every mixture draws water at some humidity. */
function withoutDefault({ rests, flushes, humidities }: Practice): Problem[] {
  const missing = [
    ...(rests.some(({ plants }) => plants === '*') ? [] : [['rests', 'plants', '*']]),
    ...MEDIA.filter((one) => !flushes.some(({ medium }) => medium === one)).map((one) => ['flushes', 'medium', one]),
    ...(humidities.some(({ formulas }) => formulas.length === 0) ? [] : [['humidities', 'formula', 'blend']]),
  ];
  return missing.map(([file, field, value]) =>
    problem(
      'practice-missing',
      { file: `catalog/${file}.csv`, field: field! },
      `no row for ${value}`,
      `a row whose ${field} is ${value}`,
      'Add it.',
    ),
  );
}

const MEDIUM: ReadonlyMap<string, Medium> = new Map(MEDIA.map((medium) => [medium, medium]));
const REST_COLUMNS: readonly Column[] = [
  { name: 'plants', required: true },
  { name: 'from', required: true },
  { name: 'to', required: true },
];
const FLUSH_COLUMNS: readonly Column[] = [
  { name: 'medium', required: true },
  { name: 'every_weeks', required: true },
  { name: 'pot_volumes' },
];
const HUMIDITY_COLUMNS: readonly Column[] = [
  { name: 'name', required: true },
  { name: 'formula', required: true },
  { name: 'humidity', required: true },
];
