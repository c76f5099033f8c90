import { type ChildProcess, spawn } from 'node:child_process';

/** A process that runs it; what it said is in `said()`; it `speaks` when its first word has come. */
export function started(path: string, words: readonly string[]) {
  const child = spawn(process.execPath, [path, ...words], { stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '';
  child.stdout.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  child.stderr.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  const speaks = new Promise<void>((done) => {
    child.stdout.once('data', () => done());
  });
  return { child, said: () => out, speaks, ended: ending(child) };
}

const ending = (child: ChildProcess): Promise<number | null> =>
  new Promise((done) => {
    child.on('close', (code) => done(code));
  });
