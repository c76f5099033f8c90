import { doubtsOf } from '../label/doubts.js';
import { ANALYSIS_COLUMNS, type Analysis, type Composition, readAnalysis } from '../label/index.js';
import { MOST_PER_100_ML } from '../label/elements.js';
import type { Problem } from '../problem.js';
import { BOUNDS } from '../units/index.js';
import { numberCell } from './cells.js';
import type { Row } from './table.js';

/** What the label's figures need to be understood. */
export type LabelContext = Pick<Analysis, 'form'> & {
  basis: Analysis['basis'];
  density: number | undefined;
  derivedFrom: readonly string[];
};

/** The composition that a row's figures or formula tell; undefined, with Problems, where they tell none. */
export function compositionOf(row: Row, label: LabelContext, problems: Problem[]): Composition | undefined {
  const { form, basis, density, derivedFrom } = label;
  const most = basis === 'w/v' ? MOST_PER_100_ML : BOUNDS.labelFigure.most;
  const found: Problem[] = [];
  const percent: Analysis['percent'] = {};
  for (const column of ANALYSIS_COLUMNS) {
    const value = numberCell(row, column, { least: 0, most, unit: '%' }, found);
    if (value !== undefined) percent[column] = value;
  }
  const purity = numberCell(row, 'purity', { least: 0, most: 100, unit: '%' }, found);
  const formula = row.text('formula');
  const analysis = {
    form,
    percent,
    derivedFrom,
    ...(basis === undefined ? {} : { basis }),
    ...(density === undefined ? {} : { density }),
    ...(formula === undefined ? {} : { formula }),
    ...(purity === undefined ? {} : { purity }),
  };
  const read = readAnalysis(analysis, row.where());
  const refused = found.some((p) => p.severity === 'error');
  const told = (read.ok ? read.warnings : read.problems).filter((p) => !isEcho(p, row, refused));
  problems.push(...found, ...told);
  if (!read.ok || refused) return undefined;
  problems.push(...doubtsOf({ ...analysis, name: row.text('name') ?? row.text('id') ?? '' }, row.where()));
  return read.value;
}

/** Whether a problem only repeats another: the label reader misses a value whose cell was filled in, but refused. */
function isEcho(problem: Problem, row: Row, refused: boolean): boolean {
  if (problem.code === 'density-missing') return row.text('density') !== undefined || isUnknownBasis(row);
  return problem.code === 'analysis-empty' && refused;
}

const isUnknownBasis = (row: Row): boolean => {
  const basis = row.text('basis')?.toLowerCase();
  return basis !== undefined && basis !== 'w/w' && basis !== 'w/v';
};
