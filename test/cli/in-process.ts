import type { Io } from '../../src/cli/io.js';
import { type ExitCode, run } from '../../src/cli/run.js';

export interface Ran {
  exit: ExitCode;
  stdout: string;
  stderr: string;
}

/** Runs a command line in-process in a folder, as a pipe would see it. */
export async function velamen(argv: readonly string[], cwd: string, over: Partial<Io> = {}): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const exit = await run(argv, {
    stdout: (text) => out.push(text),
    stderr: (text) => err.push(text),
    env: { NO_COLOR: '1' },
    cwd,
    isTTY: false,
    now: () => new Date('2031-05-04T09:00:00Z'),
    ...over,
  });
  return { exit, stdout: out.join(''), stderr: err.join('') };
}
