import { execFile } from 'node:child_process';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { inScratch, mayRun, readBytes, writeFiles } from '../files/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Io } from './io.js';

/** A page as PDF, printed by the browser of this machine. @throws Refusal where there is none. */
export async function pdfOf(html: string, env: Io['env']): Promise<Uint8Array> {
  const browser = browserOf(env);
  if (browser === null) throw new Refusal([noBrowser()]);
  return inScratch(async (folder) => {
    writeFiles([{ path: 'sheet.html', content: html }], folder);
    const pdf = join(folder, 'sheet.pdf');
    const flags = [...BROWSER_FLAGS, ...(process.getuid?.() === 0 ? [AS_ROOT] : [])];
    const rest = [`--user-data-dir=${join(folder, 'profile')}`, '--no-pdf-header-footer', `--print-to-pdf=${pdf}`];
    try {
      await promisify(execFile)(browser, [...flags, ...rest, pathToFileURL(join(folder, 'sheet.html')).href], {
        timeout: PATIENCE,
      });
      return readBytes(pdf, folder);
    } catch (fault) {
      throw new Refusal([noPrint(fault)]);
    }
  });
}

/** The browser refuses to run for the all-powerful user unless its inner walls are off. */
const AS_ROOT = '--no-sandbox';

const noPrint = (fault: unknown): Problem =>
  problem(
    'no-print',
    { field: '--to' },
    `a browser that printed nothing (${(fault instanceof Error ? fault.message : '').split('\n')[0]!.slice(0, 80)})`,
    'a browser that prints pages',
    'Write a page (--to sheet.html) and print that from any browser.',
  );

/** What is said where there is no browser to print with. */
export const noBrowser = (): Problem =>
  problem(
    'no-browser',
    { field: '--to' },
    'no browser on this machine',
    'Chromium in PATH, or its place in CHROME_PATH',
    'Install it, or write a page (--to sheet.html) and print that from any browser.',
  );

/** A quiet browser that asks the network nothing. */
export const BROWSER_FLAGS = [
  '--headless',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
] as const;

const PATIENCE = 60_000;

/** The browser that CHROME_PATH names, else the first of its names in PATH; null where there is none. */
export function browserOf(env: Record<string, string | undefined>): string | null {
  const named = env.CHROME_PATH;
  if (named !== undefined && named !== '') return mayRun(named) ? named : null;
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.flatMap((folder) => NAMES.map((name) => join(folder, name))).find(mayRun) ?? null;
}

const NAMES = ['chromium', 'chromium-browser', 'chromium.exe'] as const;
