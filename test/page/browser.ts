import { type Browser, chromium } from 'playwright-core';
import { BROWSER_FLAGS, browserOf } from '../../src/cli/browser.js';

/** The browser of this machine, or null; a run that requires one (CI) fails without. */
export const browserPath: string | null = browserOf({
  ...process.env,
  PATH: `${process.env.PATH ?? ''}:/usr/bin:/usr/local/bin`,
});

const required = process.env.VELAMEN_BROWSER === 'required';

/** True where the browser tests have to be left out, which is said on the way. */
export function withoutBrowser(): boolean {
  if (browserPath !== null) return false;
  if (required)
    throw new Error('VELAMEN_BROWSER=required, but there is no browser: install Chromium or set CHROME_PATH');
  process.stdout.write(
    'No browser found, so the printed page is not tested here: install Chromium or set CHROME_PATH.\n',
  );
  return true;
}

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: browserPath!,
    args: [...BROWSER_FLAGS.filter((flag) => flag !== '--headless'), '--no-sandbox'],
  });
}

/** Pages of a PDF: its page objects are written plainly. */
export function pagesOf(pdf: Uint8Array): number {
  return (
    Buffer.from(pdf)
      .toString('latin1')
      .match(/\/Type\s*\/Page(?![a-zA-Z])/g) ?? []
  ).length;
}

/** Width and height of the first page in mm. */
export function sizeOf(pdf: Uint8Array): [number, number] {
  const box = /\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/.exec(Buffer.from(pdf).toString('latin1'))!;
  return [Math.round((Number(box[1]) / 72) * 25.4), Math.round((Number(box[2]) / 72) * 25.4)];
}
