/** Bundles abuse.ts beside the packages it needs, and runs it: `npm run abuse -- --cases 10000 --processes 500`, or one case: `--seed 17 --show`. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(root, 'node_modules', '.abuse-'));
try {
  const outfile = join(folder, 'abuse.mjs');
  await build({
    entryPoints: [join(root, 'test/abuse/abuse.ts')],
    outfile,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'es2022',
    logLevel: 'warning',
  });
  process.exitCode = spawnSync(process.execPath, [outfile, ...process.argv.slice(2)], { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
