import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { isDead, ourselves } from './owner.js';

/** A new name in a folder for what is not finished: it tells machine and process, so that leavings of the dead are known. */
export function partIn(folder: string): string {
  const { machine, process: number } = ourselves();
  const random = process.getBuiltinModule('node:crypto').randomBytes(4).toString('hex');
  return join(folder, `.velamen-${machine}-${number}-${random}.part`);
}

const PART = /^(?:\.velamen-|velamen-scratch-)([0-9a-f]{6})-(\d+)-\w+(?:\.part)?$/;

/** Removes what processes that are no more left unfinished in a folder. */
export function sweep(folder: string): void {
  try {
    for (const path of leavings(folder)) rmSync(path, { recursive: true, force: true });
  } catch {
    // what cannot be swept does no harm to what is asked
  }
}

/** What processes that are no more left unfinished in a folder. */
export function leavings(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const [, machine, number] = PART.exec(name) ?? [];
    return machine !== undefined && isDead({ machine, process: Number(number), start: '' }) ? [join(folder, name)] : [];
  });
}
