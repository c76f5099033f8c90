// Bundles the command line, the library and the solver into dist/, then writes their types.
import { execFileSync } from 'node:child_process';
import { chmodSync, rmSync } from 'node:fs';
import { build } from 'esbuild';

rmSync('dist', { recursive: true, force: true });
await build({
  entryPoints: { cli: 'src/cli/main.ts', index: 'src/index.ts', solver: 'solver/index.ts' },
  outdir: 'dist',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  chunkNames: 'chunk-[hash]',
  // highs locates its wasm file beside itself, so it stays in node_modules
  external: ['highs'],
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
chmodSync('dist/cli.js', 0o755);
if (!process.argv.includes('--no-types')) {
  execFileSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.types.json'], {
    stdio: 'inherit',
  });
}
