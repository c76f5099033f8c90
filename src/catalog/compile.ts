import type { Solved } from '../label/solved.js';
import { CATALOG_FILES, type Catalog } from './catalog.js';
import { SAFETY_FILES, type Safety } from './hazards.js';
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

const fileText = (name: string, rows: readonly unknown[]): string =>
  `  ${name}: [\n${rows.map((row) => `    ${quoted(writtenRow(row))},\n`).join('')}  ],\n`;

const quoted = (row: string): string => `'${row.replace(/[\\']/g, '\\$&')}'`;

/** What the programs of labels say, as the text of a module, a label a line. @throws as `catalogModule` */
export function labelsModule(solved: ReadonlyMap<string, Solved>): string {
  const lines = [...solved].map(([key, said]) => `  [${literal(key)}, ${literal(said)}],\n`);
  return `${LABELS_HEAD}${lines.join('')}]);\n`;
}

const HEAD = `// Written by \`npm run catalog\` from catalog/*.csv, and held against them by a test: change those, not this.
import { catalogOf } from '../catalog/written-rows.js';

export const compiledCatalog = catalogOf({
`;

const SAFETY_HEAD = `// Written by \`npm run catalog\` from catalog/*.csv, and held against them by a test: change those, not this.
import type { Safety } from '../catalog/hazards.js';
import { filesOf } from '../catalog/written-rows.js';

export const compiledSafety = filesOf<Safety>({
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
