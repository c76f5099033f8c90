import { mgPerLitre } from '../units/index.js';
import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { parseRules } from '../programme/parse-rule.js';
import type { Band, Medium, Phase } from '../programme/programme.js';
import type { BandRow, FactorRow, RuleRow, Sourced } from '../programme/tables.js';
import { type Checked, type Problem, problem, type Where } from '../problem.js';
import { choiceCell, evidenceOf, listCell, numberCell, requiredCell } from './cells.js';
import type { Column } from './columns.js';
import { capped } from './limits.js';
import { findNamed, type Named } from './names.js';
import type { CatalogPlants, Term } from './plants.js';
import { SOURCE_COLUMNS } from './shared-columns.js';
import { type Row, readTable } from './table.js';

/** What programme rows may refer to. */
export interface Vocabulary {
  plants: readonly CatalogPlants[];
  media: readonly Term<Medium>[];
  phases: readonly Term<Phase>[];
}

/** Reads `bands.csv`: min, aim and max in mg/L per plant group and nutrient; `*` is every group without a row of its own. */
export function readBands(text: string, file: string, words: Vocabulary): Checked<(BandRow & { where: Where })[]> {
  const problems: Problem[] = [];
  const columns = [
    need('plants'),
    need('nutrient'),
    ...BAND_ENDS.map((name) => ({ name, unit: 'mg/L' })),
    { name: 'per' },
    ...SOURCE_COLUMNS,
  ];
  const bands = readTable(text, file, columns, problems).rows.flatMap((row) => {
    const plants = reference(row, 'plants', words.plants, 'a plant group', problems);
    const nutrient = reference(row, 'nutrient', NUTRIENT_NAMES, 'a nutrient', problems);
    const given = BAND_ENDS.flatMap((end) => {
      const value = numberCell(row, end, { least: 0, most: 10_000, unit: 'mg/L' }, problems);
      return value === undefined ? [] : [[end, mgPerLitre(value)] as const];
    });
    const ends: Band = Object.fromEntries(given);
    problems.push(...bandProblems(row, ends));
    if (nutrient === '*')
      problems.push(
        problem('band-nutrient', row.where('nutrient'), '"*"', 'one nutrient', 'Give each nutrient its own row.'),
      );
    if (plants === undefined || nutrient === undefined || nutrient === '*') return [];
    const perNitrogen = choiceCell(row, 'per', PER_NITROGEN, problems) !== undefined;
    return [
      {
        plants,
        nutrient,
        ...(perNitrogen ? { perNitrogen: true as const } : {}),
        ...ends,
        ...sourced(row, problems),
        where: row.where(),
      },
    ];
  });
  problems.push(...repeats(bands, (b) => `${b.plants}, ${b.nutrient}`));
  return capped(bands, problems);
}

/** Reads `factors.csv`: what multiplies the bands in a medium and phase. */
export function readFactors(text: string, file: string, words: Vocabulary): Checked<(FactorRow & { where: Where })[]> {
  const problems: Problem[] = [];
  const columns = [
    need('plants'),
    need('medium'),
    need('phase'),
    need('nutrient'),
    need('factor'),
    { name: 'from' },
    { name: 'to' },
    ...SOURCE_COLUMNS,
  ];
  const factors = readTable(text, file, columns, problems).rows.flatMap((row) => {
    const plants = reference(row, 'plants', words.plants, 'a plant group', problems);
    const medium = reference(row, 'medium', words.media, 'a medium', problems);
    const phase = reference(row, 'phase', words.phases, 'a phase', problems);
    const nutrient = reference(row, 'nutrient', NUTRIENT_NAMES, 'a nutrient', problems);
    requiredCell(row, 'factor', problems);
    const factor = numberCell(row, 'factor', { least: 0, most: 20 }, problems);
    if (plants === undefined || medium === undefined || phase === undefined) return [];
    if (nutrient === undefined || factor === undefined) return [];
    const rest = restOf(row, factor, nutrient, problems);
    return [{ plants, medium, phase, nutrient, factor, ...rest, ...sourced(row, problems), where: row.where() }];
  });
  problems.push(...repeats(factors, (f) => `${f.plants}, ${f.medium}, ${f.phase}, ${f.nutrient}`));
  return capped(factors, problems);
}

/** A factor of 0 on everything needs words for when to stop and when to go on; one on a single nutrient makes no sense beside its least. */
function restOf(row: Row, factor: number, nutrient: string, problems: Problem[]): Pick<FactorRow, 'rest'> {
  if (factor > 0) return {};
  const [from = '', to = ''] = [row.text('from'), row.text('to')];
  if (nutrient === '*' && (from === '') === (to === '')) return { rest: { from, to } };
  const expected = 'nutrient *; from and to, when to stop feeding and when to go on, or neither for all the year';
  problems.push(problem('factor-zero', row.where('factor'), 'a factor of 0', expected, 'Fill in from and to.'));
  return {};
}

/** Reads `rules.csv`: a line of plain maths wherever plants, medium and phase match. */
export function readRules(text: string, file: string, words: Vocabulary): Checked<(RuleRow & { where: Where })[]> {
  const problems: Problem[] = [];
  const columns = [need('plants'), need('medium'), need('phase'), need('rule'), { name: 'aimed' }, ...SOURCE_COLUMNS];
  const rules = readTable(text, file, columns, problems).rows.flatMap((row) => {
    const plants = reference(row, 'plants', words.plants, 'a plant group', problems);
    const medium = reference(row, 'medium', words.media, 'a medium', problems);
    const phase = reference(row, 'phase', words.phases, 'a phase', problems);
    const rule = requiredCell(row, 'rule', problems);
    const parsed = rule === '' ? undefined : parseRules([rule], { owner: 'programme' }, row.where('rule'));
    if (parsed) problems.push(...(parsed.ok ? parsed.warnings : parsed.problems));
    if (plants === undefined || medium === undefined || phase === undefined) return [];
    const aimed = choiceCell(row, 'aimed', YES, problems) !== undefined;
    return [
      {
        plants,
        medium,
        phase,
        rule,
        ...(aimed ? { aimed: true as const } : {}),
        ...sourced(row, problems),
        where: row.where(),
      },
    ];
  });
  problems.push(...repeats(rules, (r) => `${r.plants}, ${r.medium}, ${r.phase}, ${r.rule}`));
  return capped(rules, problems);
}

const PER_NITROGEN: ReadonlyMap<string, 'nitrogen'> = new Map([['100 n', 'nitrogen']]);
const YES: ReadonlyMap<string, 'yes'> = new Map([['yes', 'yes']]);

const need = (name: string): Column => ({ name, required: true });
const BAND_ENDS = ['min', 'aim', 'max'] as const;
const NUTRIENT_NAMES: readonly (Named & { id: Nutrient })[] = NUTRIENTS.map((id) => ({ id, name: id, synonyms: [] }));

/** The id a cell means, or `*`; undefined, with a Problem, where nothing is known by that name. */
function reference<T extends string>(
  row: Row,
  column: string,
  known: readonly (Named & { id: T })[],
  kind: string,
  problems: Problem[],
): T | '*' | undefined {
  const text = requiredCell(row, column, problems);
  if (text === '' || text === '*') return text === '*' ? '*' : undefined;
  const found = findNamed(text, known, `${kind}, or *`, row.where(column));
  if (found.ok) return found.value.id;
  problems.push(...found.problems);
  return undefined;
}

function bandProblems(row: Row, ends: Band): Problem[] {
  const given = BAND_ENDS.flatMap((end) => (ends[end] === undefined ? [] : [ends[end]]));
  if (given.length === 0 && BAND_ENDS.every((end) => row.text(end) === undefined)) {
    return [
      problem(
        'band-empty',
        row.where(),
        'no min, aim or max',
        'at least one of them',
        'Fill one in, or take the row out.',
      ),
    ];
  }
  if (given.every((value, i) => i === 0 || value >= given[i - 1]!)) return [];
  return [problem('band-crossed', row.where(), given.join(', '), 'min ≤ aim ≤ max', 'Put them in order.')];
}

function repeats<T extends { where: Where }>(rows: readonly T[], nameOf: (row: T) => string): Problem[] {
  const first = new Map<string, Where>();
  return rows.flatMap((row) => {
    const seen = first.get(nameOf(row));
    if (!seen) first.set(nameOf(row), row.where);
    return seen
      ? [
          problem(
            'row-twice',
            row.where,
            `${nameOf(row)} again, first on line ${seen.line}`,
            'one row for it',
            'Keep the one you mean.',
          ),
        ]
      : [];
  });
}

function sourced(row: Row, problems: Problem[]): Sourced {
  const text = (column: string): string => row.text(column) ?? '';
  return {
    refs: listCell(row, 'refs'),
    source: text('source'),
    evidence: evidenceOf(row, problems),
    notes: text('notes'),
  };
}
