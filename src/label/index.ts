export { allowance } from './allowance.js';
export { ANALYSIS_COLUMNS, type Analysis, type AnalysisColumn } from './analysis.js';
export type { Composition, Content } from './composition.js';
export { type LabelLine, labelLine } from './label-line.js';
export { readAnalysis } from './read-analysis.js';
