import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll } from 'vitest';
import { Refusal } from '../../src/problem.js';

export { started } from './started.js';

/** A folder of its own for a file of tests. */
export function home(): string {
  const path = mkdtempSync(join(tmpdir(), 'velamen-files-'));
  afterAll(() => rmSync(path, { recursive: true, force: true }));
  return path;
}

/** The first problem of a refusal; a fault of any other kind is thrown on. */
export function refused(work: () => unknown) {
  try {
    work();
  } catch (fault) {
    if (fault instanceof Refusal) return fault.problems[0]!;
    throw fault;
  }
  throw new Error('was not refused');
}

/** A script that another process runs; the door stands in it as `files`. */
export async function script(folder: string, name: string, text: string): Promise<string> {
  const door = join(folder, 'door.mjs');
  await build({ entryPoints: ['src/files/index.ts'], bundle: true, platform: 'node', format: 'esm', outfile: door });
  const path = join(folder, name);
  writeFileSync(path, `import * as files from ${JSON.stringify(door)};\n${text}`);
  return path;
}

/** What velamen left in a folder besides the grower's files. */
export const strays = (folder: string): string[] => readdirSync(folder).filter((name) => name.startsWith('.velamen-'));
