import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A folder for what files of tests build once for all of them, gone after the run. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'velamen-run-'));
  process.env.VELAMEN_SCRATCH = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
