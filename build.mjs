// Bundles the command line, the library, the solver and the page into dist/, writes their types, and the licences of what is bundled.
// `--to DIR` puts them elsewhere, `--no-types` leaves the types out, `--page` builds the page alone.
import { execFileSync } from 'node:child_process';
import { chmodSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { highsInside } from './build-highs.mjs';
import { buildPage } from './build-page.mjs';

const { values } = parseArgs({
  options: { 'no-types': { type: 'boolean' }, page: { type: 'boolean' }, to: { type: 'string' } },
});
const root = import.meta.dirname;
const dist = values.to ?? join(root, 'dist');

/** The JSON Schemas, worked out: what makes them out of the shapes is not needed after that. */
const schemasWorkedOut = {
  name: 'schemas-worked-out',
  setup({ onLoad }) {
    onLoad({ filter: /src[\\/]report[\\/]json-schemas\.ts$/ }, async ({ path }) => {
      const { outputFiles } = await build({ entryPoints: [path], bundle: true, format: 'esm', write: false });
      const module = `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`;
      const { JSON_SCHEMAS } = await import(module);
      const text = JSON.stringify(JSON.stringify([...JSON_SCHEMAS]));
      return { contents: `export const JSON_SCHEMAS = new Map(JSON.parse(${text}));` };
    });
  },
};

if (values.page) {
  await buildPage(dist);
  process.exit();
}
rmSync(dist, { recursive: true, force: true });
const { metafile } = await build({
  entryPoints: { cli: 'src/cli/main.ts', index: 'src/index.ts', solver: 'solver/index.ts' },
  absWorkingDir: root,
  outdir: dist,
  bundle: true,
  splitting: true,
  format: 'esm',
  // one build for Node and browsers: the library has no `node:` import, only the command line does
  platform: 'browser',
  target: 'es2022',
  external: [...builtinModules, 'node:*'],
  chunkNames: 'chunk-[hash]',
  plugins: [highsInside, schemasWorkedOut],
  // blanks and comments are a tenth of what Node reads before it starts; names stay, for what a fault of ours says
  minifyWhitespace: true,
  minifySyntax: true,
  metafile: true,
  logLevel: 'warning',
});
chmodSync(join(dist, 'cli.js'), 0o755);
const inPage = await buildPage(dist);
writeFileSync(join(dist, 'NOTICES.txt'), notices([...bundled(metafile), ...inPage.flatMap(bundled)]));
if (!values['no-types']) {
  const tsc = join(root, 'node_modules/typescript/bin/tsc');
  execFileSync(process.execPath, [tsc, '-p', 'tsconfig.types.json', '--outDir', join(dist, 'types')], {
    cwd: root,
    stdio: 'inherit',
  });
  onlyReached(['src/index.d.ts', 'solver/index.d.ts'].map((file) => join(dist, 'types', file)));
}

/** Takes away the types that no door leads to. @throws where a door leads to the types of a package that is not installed with this one */
function onlyReached(doors) {
  const reached = new Set(doors);
  for (const file of reached) {
    const code = readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
    const imports = /^(?:import|export)\b[^'";=(]*\bfrom ['"]([^'"]+)['"];|\bimport\(['"]([^'"]+)['"]\)/gm;
    for (const [, stated, inline] of code.matchAll(imports)) {
      const from = stated ?? inline;
      if (!from.startsWith('.')) throw new Error(`${file} needs the types of ${from}`);
      if (from.endsWith('.js')) reached.add(join(dirname(file), from.replace(/\.js$/, '.d.ts')));
    }
  }
  for (const file of readdirSync(join(dist, 'types'), { recursive: true })) {
    const path = join(dist, 'types', file);
    if (file.endsWith('.ts') && !reached.has(path)) rmSync(path);
  }
}

/** Every file of which something went into a bundle. */
function bundled({ outputs }) {
  return Object.values(outputs).flatMap(({ inputs }) =>
    Object.keys(inputs).filter((path) => inputs[path].bytesInOutput > 0),
  );
}

/** Name, version and licence of every package that went into the bundles; packages with the same texts share one copy. */
function notices(inputs) {
  const packages = new Set(
    inputs.flatMap((path) => /(?:^|\/)node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1] ?? []),
  );
  const namesOf = new Map();
  for (const name of [...packages].sort()) {
    const folder = join(root, 'node_modules', name);
    const files = readdirSync(folder).filter((file) => /^(licen[cs]e|notice)/i.test(file));
    if (files.length === 0) throw new Error(`${name} is bundled, but has no licence file to keep`);
    const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const text = files
      .sort()
      .map((file) => readFileSync(join(folder, file), 'utf8').trim())
      .join('\n\n');
    namesOf.set(text, [...(namesOf.get(text) ?? []), `${name} ${version} (${license})`]);
  }
  const texts = [...namesOf].map(([text, names]) => `${names.join('\n')}\n\n${text}`);
  return `${['velamen holds code of these packages.', ...texts].join(`\n\n${'-'.repeat(80)}\n\n`)}\n`;
}
