// Reads the CSV files of this folder and writes them as a module of plain data, src/desk/compiled-catalog.ts, and what closing their labels
// solves as another, src/desk/compiled-labels.ts: `npm run catalog`.
import { readFileSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';

const root = new URL('..', import.meta.url);
const { outputFiles } = await build({
  stdin: {
    contents: `export { CATALOG_FILES, readCatalog } from './catalog.js'; export { catalogModule, labelsModule } from './compile.js';
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
const texts = Object.fromEntries(
  reader.CATALOG_FILES.map((name) => [name, readFileSync(new URL(`catalog/${name}.csv`, root), 'utf8')]),
);
const read = reader.readCatalog(texts);
if (read.ok) {
  const { products, salts } = read.value;
  const solved = await reader.solveLabels([...products, ...salts]);
  writeFileSync(new URL('src/desk/compiled-catalog.ts', root), reader.catalogModule(read.value));
  writeFileSync(new URL('src/desk/compiled-labels.ts', root), reader.labelsModule(solved));
}
for (const problem of read.ok ? read.warnings : read.problems) console.error(reader.problemLine(problem));
process.exitCode = read.ok ? 0 : 1;
