import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The page as the build makes it. */
export interface Built {
  html: string;
  url: string;
  remove: () => void;
}

let shared: Built | undefined;

/** Built once for all files of a worker, and kept until the run is over; outside a run it is its caller's to remove. */
export function builtPage(): Built {
  const scratch = process.env.VELAMEN_SCRATCH;
  if (scratch === undefined) return built(tmpdir());
  shared ??= { ...built(scratch), remove: () => undefined };
  return shared;
}

function built(under: string): Built {
  const folder = mkdtempSync(join(under, 'velamen-page-'));
  execFileSync(process.execPath, ['build.mjs', '--page', '--to', folder], { cwd: root });
  const file = join(folder, 'page.html');
  return {
    html: readFileSync(file, 'utf8'),
    url: pathToFileURL(file).href,
    remove: () => rmSync(folder, { recursive: true }),
  };
}

/** A fresh visit: what it asked for beyond the file itself, and what went wrong in it, stand in `asked` and `faults`. */
export async function visit(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<{ page: Page; asked: string[]; faults: string[] }> {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  const asked: string[] = [];
  const faults: string[] = [];
  page.on('request', (request) => {
    if (request.url() !== url && !/^(?:blob|data):/.test(request.url())) asked.push(request.url());
  });
  page.on('pageerror', (fault) => faults.push(fault.message));
  page.on('console', (line) => {
    if (line.type() === 'error') faults.push(line.text());
  });
  await page.goto(url);
  await page.locator('main').waitFor();
  return { page, asked, faults };
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What a checker of accessibility finds. It is put in by the test, past the page's own policy. */
export async function axeFinds(page: Page): Promise<string[]> {
  return (await page.evaluate(
    `${axe}; axe.run().then((r) => r.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.target.join(' ') + ' ' + (n.any[0]?.message ?? '')).join(' | ')))`,
  )) as string[];
}
