import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { type Analysis, type Composition, type Content, readAnalysis } from '../../src/label/index.js';
import type { Problem } from '../../src/problem.js';

/** A powder with these figures in %. */
export const powder = (percent: Analysis['percent'], more: Partial<Analysis> = {}): Analysis => ({
  form: 'powder',
  percent,
  ...more,
});

/** The composition of a label that must be accepted, with its warnings. */
export function accepted(analysis: Analysis): { composition: Composition; warnings: Problem[] } {
  const result = readAnalysis(analysis, { file: 'shelf.csv', line: 2 });
  if (!result.ok) throw new Error(result.problems.map((p) => `${p.code}: ${p.found}`).join('\n'));
  return { composition: result.value, warnings: result.warnings };
}

/** What an accepted label holds of a nutrient, in mg per g or mL. */
export function content(analysis: Analysis, nutrient: Nutrient): Content {
  return accepted(analysis).composition.content[nutrient];
}

/** The problems of a label that must be refused, as `code field: found → fix`. */
export function refused(analysis: Analysis): string[] {
  const result = readAnalysis(analysis, { file: 'shelf.csv', line: 2 });
  if (result.ok) throw new Error('accepted');
  return result.problems.map((p) => `${p.code}${p.where.field ? ` ${p.where.field}` : ''}: ${p.found} → ${p.fix}`);
}
