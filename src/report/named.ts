import { nearest, problem, Refusal } from '../problem.js';

/** What stands in a table under a name of `Results`. @throws Refusal where nothing does */
export function named<Table extends object, Name extends keyof Table>(table: Table, name: Name): Table[Name] {
  if (Object.hasOwn(table, name)) return table[name];
  const known = Object.keys(table);
  const guess = nearest(String(name), known, 1)[0];
  const fix = guess === undefined ? `Known: ${known.join(', ')}.` : `Did you mean ${guess}?`;
  throw new Refusal([problem('unknown-result', { field: 'name' }, `"${String(name)}"`, 'a name of Results', fix)]);
}
