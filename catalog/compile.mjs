// Reads the CSV files of this folder and writes them as modules of plain data, src/desk/compiled-catalog.ts, src/can/compiled-hazards.ts,
// src/year/compiled-practice.ts, and
// what closing their labels solves as another, src/desk/compiled-labels.ts: `npm run catalog`.
import { readFileSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';

const root = new URL('..', import.meta.url);
const { outputFiles } = await build({
  stdin: {
    contents: `export { CATALOG_FILES, readCatalog } from './catalog.js'; export { canLimitsModule, catalogModule, labelsModule, practiceModule, safetyModule } from './compile.js';
       export { SAFETY_FILES, readSafety } from './hazards.js';
       export { PRACTICE_FILES, readPractice } from './practice.js';
       export { readCanLimits } from './can-limits.js';
       export { solveLabels } from '../label/solved.js'; export { problemLine } from '../problem.js';`,
    resolveDir: new URL('src/catalog', root).pathname,
    loader: 'ts',
  },
  bundle: true,
  format: 'esm',
  platform: 'node',
  write: false,
});
const reader = await import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`);
const textsOf = (names) =>
  Object.fromEntries(names.map((name) => [name, readFileSync(new URL(`catalog/${name}.csv`, root), 'utf8')]));
const read = reader.readCatalog(textsOf(reader.CATALOG_FILES));
const safety = reader.readSafety(textsOf(reader.SAFETY_FILES));
if (safety.ok) writeFileSync(new URL('src/can/compiled-hazards.ts', root), reader.safetyModule(safety.value));
const practice = reader.readPractice(textsOf(reader.PRACTICE_FILES));
if (practice.ok) writeFileSync(new URL('src/year/compiled-practice.ts', root), reader.practiceModule(practice.value));
const limits = reader.readCanLimits(
  readFileSync(new URL('catalog/can-limits.csv', root), 'utf8'),
  'catalog/can-limits.csv',
);
if (read.ok && limits.ok) {
  const { products, salts } = read.value;
  const solved = await reader.solveLabels([...products, ...salts]);
  writeFileSync(new URL('src/desk/compiled-catalog.ts', root), reader.catalogModule(read.value));
  writeFileSync(new URL('src/desk/compiled-labels.ts', root), reader.labelsModule(solved));
  writeFileSync(new URL('src/can/compiled-limits.ts', root), reader.canLimitsModule(limits.value, salts));
}
for (const { ok, warnings, problems } of [read, safety, practice, limits])
  for (const problem of ok ? warnings : problems) console.error(reader.problemLine(problem));
process.exitCode = read.ok && safety.ok && practice.ok && limits.ok ? 0 : 1;
