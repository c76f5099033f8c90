import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ourselves } from './owner.js';
import { sweep } from './parts.js';

/** A folder for the time of some work, gone after it, even where the work is broken off by a signal. */
export async function inScratch<T>(work: (folder: string) => Promise<T>): Promise<T> {
  sweep(tmpdir());
  const { machine, process: number } = ourselves();
  const folder = mkdtempSync(join(tmpdir(), `velamen-scratch-${machine}-${number}-`));
  const clear = () => rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  const stop = (signal: NodeJS.Signals) => {
    clear();
    for (const one of SIGNALS) process.removeListener(one, stop);
    process.kill(process.pid, signal);
  };
  for (const one of SIGNALS) process.once(one, stop);
  try {
    return await work(folder);
  } finally {
    for (const one of SIGNALS) process.removeListener(one, stop);
    clear();
  }
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
