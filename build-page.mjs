import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { highsInside } from './build-highs.mjs';

const root = import.meta.dirname;
const page = join(root, 'src/page');
const version = JSON.stringify(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version);

const SHARED = {
  absWorkingDir: root,
  bundle: true,
  write: false,
  minify: true,
  target: 'es2022',
  logLevel: 'warning',
  metafile: true,
  charset: 'ascii',
  loader: { '.yaml': 'text', '.csv': 'text' },
  define: { VERSION: version, DOOR: '"page"' },
};

/**
 * Writes page.html: one file that asks for nothing. The page itself stands in it as a script, its worker (desk, reports, solver) packed as
 * text, and the answer to the example worked out beforehand, so that a first visit sees it at once.
 * @returns what esbuild tells of each bundle
 */
export async function buildPage(dist) {
  const worker = await build({
    ...SHARED,
    entryPoints: [join(page, 'work/worker.ts')],
    format: 'iife',
    platform: 'browser',
    plugins: [highsInside],
  });
  const first = await firstAnswers();
  const main = await build({
    ...SHARED,
    entryPoints: [join(page, 'main.tsx')],
    format: 'iife',
    platform: 'browser',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    plugins: [given('first-answers', `export default ${JSON.stringify(first.answers)};`)],
  });
  const styles = await build({ ...SHARED, entryPoints: [join(page, 'look/page.css')] });
  const script = inScript(main.outputFiles[0].text);
  const style = styles.outputFiles[0].text;
  const packed = gzipSync(worker.outputFiles[0].contents, { level: 9 }).toString('base64');
  const policy = [
    "default-src 'none'",
    // the solver is WebAssembly
    `script-src '${hashOf(script)}' 'wasm-unsafe-eval'`,
    // the second is the style of the printed sheet, which is shown in a frame
    `style-src '${hashOf(style)}' ${first.styles.map((text) => `'${hashOf(text)}'`).join(' ')}`,
    'worker-src blob:',
    'img-src data:',
    "connect-src 'none'",
    "form-action 'none'",
    "base-uri 'none'",
  ].join('; ');
  const html = readFileSync(join(page, 'page.html'), 'utf8')
    .replace('{policy}', () => policy)
    .replace('{icon}', () => encodeURIComponent(readFileSync(join(page, 'look/icon.svg'), 'utf8').trim()))
    .replace('{style}', () => style)
    .replace('{worker}', () => packed)
    .replace('{script}', () => script);
  mkdirSync(dist, { recursive: true });
  writeFileSync(join(dist, 'page.html'), html);
  return [worker, main].map(({ metafile }) => metafile);
}

/** The answers to the example's questions, and the styles of the printed sheet, by the very code of the worker. */
async function firstAnswers() {
  const { outputFiles } = await build({
    ...SHARED,
    entryPoints: [join(page, 'work/first.ts')],
    format: 'esm',
    platform: 'browser',
    external: ['node:*'],
    minify: false,
    plugins: [highsInside],
  });
  const folder = mkdtempSync(join(tmpdir(), 'velamen-page-'));
  try {
    const file = join(folder, 'first.mjs');
    writeFileSync(file, outputFiles[0].contents);
    return await (await import(pathToFileURL(file).href)).first();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A module that was worked out here. */
const given = (name, contents) => ({
  name,
  setup({ onResolve, onLoad }) {
    onResolve({ filter: new RegExp(`^${name}$`) }, () => ({ path: name, namespace: 'given' }));
    onLoad({ filter: /./, namespace: 'given' }, () => ({ contents }));
  },
});

/** Text that a script tag holds as it is: nothing in it ends the tag or opens a comment. */
const inScript = (text) => text.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--').trim();

const hashOf = (text) => `sha256-${createHash('sha256').update(text).digest('base64')}`;
