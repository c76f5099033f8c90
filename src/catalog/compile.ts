import type { Solved } from '../label/solved.js';
import { ionsOfFormula } from '../label/counter-ions.js';
import type { Product } from '../label/product.js';
import type { CanLimit } from './can-limits.js';
import { CATALOG_FILES, type Catalog } from './catalog.js';
import { SAFETY_FILES, type Safety } from './hazards.js';
import { PRACTICE_FILES, type Practice } from './practice.js';
import { writtenRow } from './written-rows.js';

/**
 * The catalog as the text of a module that holds it as JSON, a row a line, so that no program has to read and check the CSV files again:
 * JSON is read far more quickly than the same data as source. @throws where a value is neither data nor a map
 */
export function catalogModule(catalog: Catalog): string {
  return `${HEAD}${CATALOG_FILES.map((name) => fileText(name, catalog[name])).join('')}});\n`;
}

/** What is known of the dangers of substances, as the text of a module. @throws as `catalogModule` */
export const safetyModule = (safety: Safety): string =>
  `${SAFETY_HEAD}${SAFETY_FILES.map((name) => fileText(name, safety[name])).join('')}});\n`;

/** What growers do through the year, as the text of a module. @throws as `catalogModule` */
export const practiceModule = (practice: Practice): string =>
  `${PRACTICE_HEAD}${PRACTICE_FILES.map((name) => fileText(name, practice[name])).join('')}});\n`;

const fileText = (name: string, rows: readonly unknown[]): string =>
  `  ${name}: [\n${rows.map((row) => `    ${quoted(writtenRow(row))},\n`).join('')}  ],\n`;

const quoted = (row: string): string => `'${row.replace(/[\\']/g, '\\$&')}'`;

/** What the programs of labels say, as the text of a module, a label a line. @throws as `catalogModule` */
export function labelsModule(solved: ReadonlyMap<string, Solved>): string {
  const lines = [...solved].map(([key, said]) => `  [${literal(key)}, ${literal(said)}],\n`);
  return `${LABELS_HEAD}${lines.join('')}]);\n`;
}

/** What a can is judged by, and the acids that take up alkalinity, as the text of a module of the room that judges. */
export function canLimitsModule(limits: readonly CanLimit[], salts: readonly Product[]): string {
  const acids = salts.filter(({ kind }) => kind === 'acid').flatMap(acidOf);
  const rows = (of: readonly unknown[]): string => of.map((row) => `  ${literal(row)},\n`).join('');
  return `${LIMITS_HEAD}export const CAN_LIMITS: readonly CanLimit[] = [\n${rows(limits)}];

/** Acids of the catalog: meq taken up by one mL or g, mg of each element that comes with it, and the most of it in a litre. */
export const ACIDS: readonly Acid[] = [\n${rows(acids)}];
`;
}

/** An acid by which alkalinity can be taken up. */
export interface Acid {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  meq: number;
  nitrogen: number;
  phosphorus: number;
  most: number | null;
}

function acidOf({ id, name, formula, composition, maxRate }: Product): Acid[] {
  const ions = formula === undefined ? null : ionsOfFormula(formula, composition);
  if (ions === null || ions.value.alkalinity >= 0) return [];
  const { per: unit, content } = composition;
  const [nitrogen, phosphorus] = [content.N.stated ?? 0, content.P.stated ?? 0];
  return [{ id, name, unit, meq: -ions.value.alkalinity, nitrogen, phosphorus, most: maxRate ?? null }];
}

const LIMITS_HEAD = `// Written by \`npm run catalog\` from catalog/can-limits.csv and salts.csv, and held against them by a test: change those, not this.
import type { CanLimit } from '../catalog/can-limits.js';
import type { Acid } from '../catalog/compile.js';

`;

const HEAD = `// Written by \`npm run catalog\` from catalog/*.csv, and held against them by a test: change those, not this.
import { catalogOf } from '../catalog/written-rows.js';

export const compiledCatalog = catalogOf({
`;

const SAFETY_HEAD = `// Written by \`npm run catalog\` from catalog/*.csv, and held against them by a test: change those, not this.
import type { Safety } from '../catalog/hazards.js';
import { filesOf } from '../catalog/written-rows.js';

export const compiledSafety = filesOf<Safety>({
`;

const PRACTICE_HEAD = `// Written by \`npm run catalog\` from catalog/*.csv, and held against them by a test: change those, not this.
import type { Practice } from '../catalog/practice.js';
import { filesOf } from '../catalog/written-rows.js';

export const compiledPractice = filesOf<Practice>({
`;

const LABELS_HEAD = `// Written by \`npm run catalog\` from catalog/*.csv, and held against them by a test: change those, not this.
import type { Solved } from '../label/solved.js';

/** What closing the labels of the catalog solves, by all that it depends on (\`labelKey\`). */
export const compiledLabels: ReadonlyMap<string, Solved> = new Map<string, Solved>([
`;

/** A value as the expression that makes it again. */
function literal(value: unknown): string {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return JSON.stringify(value);
  if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
  if (Array.isArray(value)) return `[${value.map(literal).join(', ')}]`;
  if (value instanceof Map) return `new Map(${literal([...value])})`;
  if (value === undefined || typeof value !== 'object' || Object.getPrototypeOf(value) !== Object.prototype)
    throw new TypeError(`the catalog holds ${String(value)}, which is no plain data`);
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  return `{ ${fields.map(([key, field]) => `${/^[a-z]\w*$/i.test(key) ? key : JSON.stringify(key)}: ${literal(field)}`).join(', ')} }`;
}
