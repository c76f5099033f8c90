/** Bundles a program of the tests beside the packages it needs, and runs it: `npm run proof -- --family knapsack --number 7 --show`. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../', import.meta.url));
const [entry, ...others] = process.argv.slice(2);
const folder = mkdtempSync(join(root, 'node_modules', '.run-'));
try {
  const outfile = join(folder, 'program.mjs');
  await build({
    entryPoints: [join(root, entry)],
    outfile,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'es2022',
    logLevel: 'warning',
  });
  process.exitCode = spawnSync(process.execPath, [outfile, ...others], { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
