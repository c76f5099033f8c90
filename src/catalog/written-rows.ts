import type { CATALOG_FILES, Catalog } from './catalog.js';

/** The rows of the catalog as JSON, by the file they come from; a map is written as `{"map":[[key,value],…]}`. */
export type WrittenRows = Readonly<Record<(typeof CATALOG_FILES)[number], readonly string[]>>;

/** The catalog that was written so. The rows of a file are read when they are first asked for: most questions need a few files only. */
export const catalogOf = (written: WrittenRows): Catalog => filesOf<Catalog>(written);

/** Rows of files that were written so, by the name of the file. */
export function filesOf<T extends object>(written: Readonly<Record<keyof T, readonly string[]>>): T {
  const files: Partial<T> = {};
  for (const [name, lines] of Object.entries<readonly string[]>(written)) {
    let rows: unknown;
    Object.defineProperty(files, name, {
      enumerable: true,
      get: () => (rows ??= withMaps(JSON.parse(`[${lines.join(',')}]`))),
    });
  }
  return files as T;
}

/** A row or value as JSON. Fields that are `undefined` are left out. @throws where a value is neither data nor a map */
export function writtenRow(value: unknown): string {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return JSON.stringify(value);
  // JSON knows no infinity, but reads a number past the largest as one; and it writes -0 as 0
  if (typeof value === 'number' && !Number.isNaN(value))
    return Object.is(value, -0) ? '-0' : Number.isFinite(value) ? String(value) : value > 0 ? '1e999' : '-1e999';
  if (Array.isArray(value)) return `[${value.map(writtenRow).join(',')}]`;
  if (value instanceof Map) return `{"map":${writtenRow([...value])}}`;
  if (typeof value !== 'object' || Object.getPrototypeOf(value) !== Object.prototype || 'map' in value)
    throw new TypeError(`the catalog holds ${String(value)}, which is no plain data`);
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  return `{${fields.map(([key, field]) => `${JSON.stringify(key)}:${writtenRow(field)}`).join(',')}}`;
}

/** The value with its maps made, in place. */
function withMaps(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const fields = value as Record<string, unknown>;
  if (fields.map !== undefined && !Array.isArray(value)) return new Map(fields.map as [unknown, unknown][]);
  for (const key in fields) {
    const field = fields[key];
    if (typeof field === 'object' && field !== null) fields[key] = withMaps(field);
  }
  return value;
}
