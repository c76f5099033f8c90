import { mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

export { type Ran, velamen } from './in-process.js';

/** A folder with these files, gone when the test is over. */
export function folder(files: Record<string, string | Uint8Array> = {}): string {
  const home = mkdtempSync(join(tmpdir(), 'velamen-'));
  onTestFinished(() => rmSync(home, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(home, name)), { recursive: true });
    writeFileSync(join(home, name), content);
  }
  return home;
}
