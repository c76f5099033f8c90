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
  /** Of the processor. */
  seconds: number;
  faults: string[];
}

/** Runs the case of a seed by `runner` in a folder of its own and judges it. */
export async function examine(seed: number, runner: Runner = inProcess): Promise<Finding> {
  return examined(await caseOf(seed), runner);
}

/** Runs a case by `runner` in a folder of its own and judges it. */
export async function examined(one: Case, runner: Runner = inProcess): Promise<Finding> {
  const { seed } = one;
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
  const before = process.cpuUsage();
  const ran = await velamen(argv, cwd);
  const { user, system } = process.cpuUsage(before);
  return { ...ran, seconds: (user + system) / 1e6 };
}
