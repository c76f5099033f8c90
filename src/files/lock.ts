import { mkdirSync, readFileSync, rmdirSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { problem, Refusal } from '../problem.js';
import { hashOf, isDead, type Owner, ourselves } from './owner.js';

/**
 * Does the work while no other velamen does such work with that file. The lock of an owner that died is taken over.
 * @param full the real path of the file
 * @throws Refusal where another holds it for ten seconds; what `work` throws
 */
export function withLock<T>(full: string, name: string, work: () => T): T {
  const lock = lockOf(full);
  const until = Date.now() + PATIENCE;
  while (!taken(lock)) {
    if (Date.now() > until) throw new Refusal([busy(name)]);
    pause(2 + Math.random() * 8);
  }
  try {
    return work();
  } finally {
    giveBack(lock);
  }
}

/** Ours only: one that took longer than for ever has lost it to another. */
function giveBack(lock: string): void {
  removed(() => {
    if (readFileSync(lock, 'utf8') === JSON.stringify(ourselves())) unlinkSync(lock);
  });
}

const PATIENCE = 10_000;

/** Of a lock without a word in it, and of one that takes over: their owners hold them for less than a thousandth of it. */
const SILENCE = 2_000;

/** No work under a lock takes a thousandth of it; a process number of another machine cannot be asked for. */
const FOR_EVER = 10 * 60_000;

function lockOf(full: string): string {
  const word = hashOf(basename(full)).slice(0, 12);
  return join(dirname(full), `.velamen-${word}.lock`);
}

function taken(lock: string): boolean {
  try {
    writeFileSync(lock, JSON.stringify(ourselves()), { flag: 'wx' });
    return true;
  } catch (fault) {
    if ((fault as { code?: string }).code !== 'EEXIST') {
      clearSilent(lock);
      throw fault;
    }
  }
  if (isForsaken(lock)) takeOver(lock);
  return false;
}

/** On a full disk the lock itself may stand there without a word. */
function clearSilent(lock: string): void {
  try {
    if (readFileSync(lock).length === 0) unlinkSync(lock);
  } catch {
    // it was not made
  }
}

function isForsaken(lock: string): boolean {
  try {
    const age = Date.now() - statSync(lock).mtimeMs;
    const owner = ownerIn(readFileSync(lock, 'utf8'));
    return owner === null ? age > SILENCE : isDead(owner) || age > FOR_EVER;
  } catch {
    // given back meanwhile
    return false;
  }
}

function ownerIn(text: string): Owner | null {
  try {
    return JSON.parse(text) as Owner;
  } catch {
    return null;
  }
}

/** Removes a forsaken lock, one process at a time: of two that found it forsaken the slower would remove the new lock of the quicker. */
function takeOver(lock: string): void {
  const guard = `${lock}.over`;
  try {
    mkdirSync(guard);
  } catch {
    if (ageOf(guard) > SILENCE) removed(() => rmdirSync(guard));
    return;
  }
  try {
    if (isForsaken(lock)) removed(() => unlinkSync(lock));
  } finally {
    removed(() => rmdirSync(guard));
  }
}

function ageOf(path: string): number {
  try {
    return Date.now() - statSync(path).mtimeMs;
  } catch {
    return 0;
  }
}

function removed(work: () => void): void {
  try {
    work();
  } catch {
    // another was quicker
  }
}

function pause(ms: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}

const busy = (name: string) =>
  problem(
    'in-use',
    { file: name },
    'another velamen that writes to it',
    'a file that nobody else writes to',
    'Wait until the other is done, then try again.',
  );
