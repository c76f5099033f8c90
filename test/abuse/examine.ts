import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { velamen } from '../cli/in-process.js';
import { type Case, caseOf } from './case.js';
import { faultsOf, type Left } from './judge.js';

/** A case with what was wrong with it. */
export interface Finding {
  seed: number;
  argv: string[];
  exit: number | null;
  seconds: number;
  faults: string[];
}

/** Runs the case of a seed by `runner` in a folder of its own and judges it. */
export async function examine(seed: number, runner: Runner = inProcess): Promise<Finding> {
  const one = await caseOf(seed);
  const home = mkdtempSync(join(tmpdir(), 'velamen-abuse-'));
  try {
    lay(home, one);
    const left = await runner(one.argv, home);
    const input = `${one.argv.join(' ')} ${Object.values(one.files).join(' ')}`;
    return { seed, argv: one.argv, exit: left.exit, seconds: left.seconds, faults: faultsOf(one.argv, input, left) };
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}

export type Runner = (argv: readonly string[], home: string) => Promise<Left>;

export function lay(home: string, { files }: Case): void {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(home, name)), { recursive: true });
    writeFileSync(join(home, name), text);
  }
}

export async function inProcess(argv: readonly string[], cwd: string): Promise<Left> {
  const start = performance.now();
  const ran = await velamen(argv, cwd);
  return { ...ran, seconds: (performance.now() - start) / 1000 };
}
