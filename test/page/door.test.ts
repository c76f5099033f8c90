import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseSync } from '@swc/core';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** What is typed into a terminal: an option, or a command by its name. */
const TYPED = /(?:^|[\s(`'"“])--[a-z]|\bvelamen [a-z]+|`(?:blend|sheet|meter|buy|season|journal)\b/;

const SHARED = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  platform: 'browser',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  loader: { '.yaml': 'text', '.csv': 'text' },
  logLevel: 'error',
} as const;

describe('what the page tells', () => {
  it('is said for the page wherever a terminal would be told an option or a command', async () => {
    const inputs = await bundled();
    expect(inputs.length).toBeGreaterThan(300);
    expect(inputs.flatMap(typedIn)).toEqual([]);
  });

  let ask: typeof import('../../src/page/work/questions.js').QUESTIONS;
  const scratch = mkdtempSync(join(tmpdir(), 'velamen-door-'));
  // bundled as build-page.mjs does it: the sources as other tests have them speak to a terminal
  beforeAll(async () => {
    const { highsInside } = await import('../../build-highs.mjs' as string);
    await build({
      ...SHARED,
      entryPoints: ['src/page/work/questions.ts'],
      outfile: join(scratch, 'questions.mjs'),
      plugins: [highsInside],
      external: ['node:*'],
      define: { VERSION: '""', DOOR: '"page"' },
    });
    ask = (await import(pathToFileURL(join(scratch, 'questions.mjs')).href)).QUESTIONS;
  });
  afterAll(() => rmSync(scratch, { recursive: true }));

  describe.each(readdirSync(join(root, 'examples')))('%s', (name) => {
    const texts = Object.fromEntries(
      ['bench.yaml', 'shelf.csv'].map((file) => [file, readFileSync(join(root, 'examples', name, file), 'utf8')]),
    );

    it('names no option and no command in any place', async () => {
      const { feeds } = await ask.bench({ texts });
      const feed = { texts, feed: feeds[0]!.name, tuned: { way: 'given' as const } };
      const told = [await ask.feed(feed), await ask.shelf({ texts })];
      expect(told.flatMap(textsIn).filter((text) => TYPED.test(text))).toEqual([]);
    });
  });
});

/** Files of ours of which the page or its worker holds something. */
async function bundled(): Promise<string[]> {
  const { metafile } = await build({
    ...SHARED,
    entryPoints: ['src/page/work/worker.ts', 'src/page/main.tsx'],
    write: false,
    metafile: true,
    outdir: 'unwritten',
    external: ['node:*', 'first-answers', 'highs'],
    define: { VERSION: '""' },
  });
  const inputs = Object.values(metafile.outputs).flatMap((output) => Object.entries(output.inputs));
  return inputs.flatMap(([file, { bytesInOutput }]) =>
    bytesInOutput > 0 && /^src\/(?!desk\/options\/(?:wishes-table|table|\w+-wishes)\.ts).*\.tsx?$/.test(file)
      ? [file]
      : [],
  );
}

/** Texts of a file that name what is typed, outside of what is told at the terminal and of the name of a field, which the page leaves out. */
function typedIn(file: string): string[] {
  const found: string[] = [];
  const look = (part: unknown): void => {
    if (Array.isArray(part)) part.forEach(look);
    if (typeof part !== 'object' || part === null || Array.isArray(part)) return;
    const node = part as { type?: string; key?: { value?: string }; value?: unknown; cooked?: unknown };
    if (node.type === 'KeyValueProperty' && /^(?:typed|field)$/.test(node.key?.value ?? '')) return;
    const text = node.type === 'TemplateElement' ? node.cooked : node.type === 'StringLiteral' ? node.value : undefined;
    // the name of an option by itself is that of a field
    if (typeof text === 'string' && TYPED.test(text) && !/^--[\w-]+$/.test(text)) found.push(`${file}: ${text}`);
    Object.values(node).forEach(look);
  };
  look(parseSync(readFileSync(join(root, file), 'utf8'), { syntax: 'typescript', tsx: file.endsWith('x') }).body);
  // a style names its own properties so
  return found.filter((line) => !/var\(--|style="--/.test(line));
}

/** Every text of an answer but the pages to print and the pictures, which are files of their own. */
function textsIn(part: unknown): string[] {
  if (typeof part === 'string') return [part];
  if (typeof part !== 'object' || part === null) return [];
  return Object.entries(part).flatMap(([key, value]) =>
    ['page', 'html', 'picture', 'field', 'stack'].includes(key) ? [] : textsIn(value),
  );
}
