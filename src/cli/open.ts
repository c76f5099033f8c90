import { spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { placeOf } from '../files/index.js';
import { type Problem, warning } from '../problem.js';
import type { Io } from './io.js';

/** Shows a file in the browser that this machine prefers; where none can be started, that is told. */
export async function openInBrowser(path: string, { cwd, env }: Pick<Io, 'cwd' | 'env'>): Promise<Problem[]> {
  const url = pathToFileURL(placeOf(path, cwd).full).href;
  const [command, ...argv] = STARTERS[process.platform] ?? ['xdg-open'];
  const started = new Promise<void>((done, fail) => {
    const child = spawn(command!, [...argv, url], { detached: true, stdio: 'ignore', env });
    child.once('error', fail);
    child.once('spawn', () => {
      child.unref();
      done();
    });
  });
  return started.then(
    () => [],
    () => [notOpened(path)],
  );
}

/** What opens a file with the program that people chose for it. */
const STARTERS: Partial<Record<NodeJS.Platform, readonly string[]>> = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
};

const notOpened = (path: string): Problem =>
  warning('not-opened', { field: '--open' }, 'no browser that could be started', 'one', `Open ${path} yourself.`);
