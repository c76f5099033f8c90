import { parseFormula } from '../chemistry/formula.js';
import type { Evidence } from '../label/product.js';
import { type Checked, type Problem, problem } from '../problem.js';
import { choiceCell, evidenceOf, listCell, numberCell, requiredCell, uniqueIds } from './cells.js';
import type { Column } from './columns.js';
import { capped } from './limits.js';
import { SOURCE_COLUMNS } from './shared-columns.js';
import { type Row, readTable } from './table.js';

/** What the safety data of a pure substance say. */
export interface SubstanceHazards {
  name: string;
  formula: string;
  /** Empty where it is classed as nothing. */
  codes: readonly HazardCode[];
  /** Sale in the EU to private persons, or that suspicious sales are reported; null where neither. */
  sale: Sale | null;
  /** May stand behind a label that names no salts. */
  unnamed: boolean;
  /** mg/L of an element that a leaf bears, null where nothing is known. */
  leaf: { element: LeafElement; mgPerLitre: number } | null;
  refs: readonly string[];
  source: string;
  evidence: Evidence;
}

/** A hazard statement of a substance. */
export interface HazardCode {
  code: string;
  /** Share of the substance in a mixture, %, from which the statement holds; absent = that of `statements.csv`. */
  from?: number;
  /** Only in this form. */
  form?: 'powder' | 'liquid';
}

/** `from`: share of the substance, %, from which private persons may not buy it. */
export type Sale = { kind: 'restricted'; from: number } | { kind: 'reportable' };

type LeafElement = (typeof LEAF_ELEMENTS)[number];

/** A hazard statement and how it passes on to mixtures. */
export interface HazardStatement {
  code: string;
  statement: string;
  group: HazardGroup;
  /** Share in a mixture, %. */
  from: number;
  /** What holds from a lower share. */
  weaker: readonly HazardCode[];
  /** What need not be told beside it. */
  covers: readonly string[];
  refs: readonly string[];
  source: string;
  evidence: Evidence;
}

/** The most pressing first. */
export const HAZARD_GROUPS = [
  'oxidiser',
  'corrosive',
  'eye-damage',
  'reproduction',
  'long-term',
  'harmful',
  'water-life',
] as const;

/** The caution that a statement belongs to. */
export type HazardGroup = (typeof HAZARD_GROUPS)[number];

/** What is known of the dangers of substances. */
export interface Safety {
  hazards: SubstanceHazards[];
  statements: HazardStatement[];
}

/** The files that say so. */
export const SAFETY_FILES = ['hazards', 'statements'] as const;

/** Reads `hazards.csv` and `statements.csv`, with every Problem of both at once; each code must have its statement. */
export function readSafety(texts: Readonly<Record<(typeof SAFETY_FILES)[number], string>>): Checked<Safety> {
  const problems: Problem[] = [];
  const statements = rowsOf(texts.statements, 'catalog/statements.csv', STATEMENT_COLUMNS, problems).map((row) =>
    statementOf(row, problems),
  );
  const known = new Set(statements.map(({ code }) => code));
  const read = rowsOf(texts.hazards, 'catalog/hazards.csv', HAZARD_COLUMNS, problems);
  problems.push(...uniqueIds(read.map((row) => ({ id: row.text('name') ?? '', where: row.where('name') }))));
  const hazards = read.map((row) => hazardsOf(row, known, problems));
  return capped({ hazards, statements }, problems);
}

const rowsOf = (text: string, file: string, columns: readonly Column[], problems: Problem[]): Row[] =>
  readTable(text, file, columns, problems).rows;

function statementOf(row: Row, problems: Problem[]): HazardStatement {
  return {
    code: requiredCell(row, 'code', problems),
    statement: requiredCell(row, 'statement', problems),
    group: choiceCell(row, 'group', GROUPS, problems) ?? 'harmful',
    from: numberCell(row, 'mixture_from', { least: 0.001, most: 100, unit: '%' }, problems) ?? 100,
    weaker: codesOf(row, 'weaker', problems),
    covers: listCell(row, 'covers'),
    ...sourceOf(row, problems),
  };
}

function hazardsOf(row: Row, known: ReadonlySet<string>, problems: Problem[]): SubstanceHazards {
  const formula = requiredCell(row, 'formula', problems);
  const read = formula === '' ? undefined : parseFormula(formula, row.where('formula'));
  if (read && !read.ok) problems.push(...read.problems);
  const codes = requiredCell(row, 'codes', problems) === 'not classified' ? [] : codesOf(row, 'codes', problems);
  for (const { code } of codes)
    if (!known.has(code))
      problems.push(
        problem('hazard-code', row.where('codes'), `"${code}"`, 'a code of statements.csv', 'Add its statement there.'),
      );
  return {
    name: requiredCell(row, 'name', problems),
    formula,
    codes,
    sale: saleOf(row, problems),
    unnamed: row.text('unnamed') === 'yes',
    leaf: leafOf(row, problems),
    ...sourceOf(row, problems),
  };
}

const sourceOf = (row: Row, problems: Problem[]): Pick<SubstanceHazards, 'refs' | 'source' | 'evidence'> => ({
  refs: listCell(row, 'refs'),
  source: row.text('source') ?? '',
  evidence: evidenceOf(row, problems),
});

/** `H314 from 5 %; H290 in liquids` */
function codesOf(row: Row, column: string, problems: Problem[]): HazardCode[] {
  return listCell(row, column).flatMap((part): HazardCode[] => {
    const [, code, from, form] = /^((?:EU)?H\d{3}\w*)(?: from ([\d.]+) %)?(?: in (powder|liquid)s)?$/.exec(part) ?? [];
    if (code === undefined) {
      const expected = 'a code of the GHS, such as H302, H314 from 5 % or H290 in liquids';
      problems.push(problem('hazard-code', row.where(column), `"${part}"`, expected, 'Write it so.'));
      return [];
    }
    return [{ code, ...(from && { from: Number(from) }), ...(form && { form: form as 'powder' | 'liquid' }) }];
  });
}

function saleOf(row: Row, problems: Problem[]): Sale | null {
  const text = row.text('sale');
  if (text === undefined) return null;
  if (text === 'reportable') return { kind: 'reportable' };
  const [, from] = /^restricted from ([\d.]+) %$/.exec(text) ?? [];
  if (from !== undefined) return { kind: 'restricted', from: Number(from) };
  const expected = 'reportable, or restricted from X %';
  problems.push(problem('hazard-sale', row.where('sale'), `"${text}"`, expected, 'Write it so, or leave it empty.'));
  return null;
}

function leafOf(row: Row, problems: Problem[]): SubstanceHazards['leaf'] {
  const text = row.text('leaf_mg_per_L');
  if (text === undefined) return null;
  const [, name, mg] = /^(\w+) ([\d.]+)$/.exec(text) ?? [];
  const element = LEAF_ELEMENTS.find((symbol) => symbol === name);
  if (element !== undefined) return { element, mgPerLitre: Number(mg) };
  const expected = `${LEAF_ELEMENTS.join(', ')} and mg/L`;
  problems.push(problem('hazard-leaf', row.where('leaf_mg_per_L'), `"${text}"`, expected, 'Write it so: Cl 105.'));
  return null;
}

const LEAF_ELEMENTS = ['Na', 'Cl', 'B'] as const;
const GROUPS: ReadonlyMap<string, HazardGroup> = new Map(HAZARD_GROUPS.map((group) => [group, group]));

const HAZARD_COLUMNS: readonly Column[] = [
  { name: 'name', required: true },
  { name: 'formula', required: true },
  { name: 'codes', required: true },
  { name: 'sale' },
  { name: 'unnamed' },
  { name: 'leaf_mg_per_L' },
  ...SOURCE_COLUMNS,
];

const STATEMENT_COLUMNS: readonly Column[] = [
  { name: 'code', required: true },
  { name: 'statement', required: true },
  { name: 'group', required: true },
  { name: 'mixture_from', required: true },
  { name: 'weaker' },
  { name: 'covers' },
  ...SOURCE_COLUMNS,
];
