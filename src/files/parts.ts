import { randomBytes } from 'node:crypto';
import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { isDead, OURSELVES } from './owner.js';

/** A new name in a folder for what is not finished: it tells machine and process, so that leavings of the dead are known. */
export const partIn = (folder: string): string =>
  join(folder, `.velamen-${OURSELVES.machine}-${OURSELVES.process}-${randomBytes(4).toString('hex')}.part`);

const PART = /^(?:\.velamen-|velamen-scratch-)([0-9a-f]{6})-(\d+)-\w+(?:\.part)?$/;

/** Removes what processes that are no more left unfinished in a folder. */
export function sweep(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      const [, machine, number] = PART.exec(name) ?? [];
      if (machine === undefined || !isDead({ machine, process: Number(number), start: '' })) continue;
      rmSync(join(folder, name), { recursive: true, force: true });
    }
  } catch {
    // what cannot be swept does no harm to what is asked
  }
}
