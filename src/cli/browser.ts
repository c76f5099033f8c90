import { execFile } from 'node:child_process';
import { accessSync, constants, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Io } from './io.js';

/** A page as PDF, printed by the browser of this machine. @throws Refusal where there is none. */
export async function pdfOf(html: string, env: Io['env']): Promise<Uint8Array> {
  const browser = browserOf(env);
  if (browser === null) throw new Refusal([noBrowser()]);
  const folder = mkdtempSync(join(tmpdir(), 'velamen-pdf-'));
  try {
    const page = join(folder, 'sheet.html');
    const pdf = join(folder, 'sheet.pdf');
    writeFileSync(page, html);
    await promisify(execFile)(
      browser,
      [
        ...BROWSER_FLAGS,
        `--user-data-dir=${join(folder, 'profile')}`,
        '--no-pdf-header-footer',
        `--print-to-pdf=${pdf}`,
        pathToFileURL(page).href,
      ],
      { timeout: PATIENCE },
    );
    return readFileSync(pdf);
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

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
  '--no-sandbox',
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
  const runs = (path: string): boolean => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  };
  const named = env.CHROME_PATH;
  if (named !== undefined && named !== '') return runs(named) ? named : null;
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.flatMap((folder) => NAMES.map((name) => join(folder, name))).find(runs) ?? null;
}

const NAMES = ['chromium', 'chromium-browser', 'chromium.exe'] as const;
