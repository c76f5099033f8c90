import { escapeMarkup as safe } from './escape.js';

/** A whole page in one file: nothing is fetched, nothing runs, it prints on paper. The body is markup already made safe. */
export function htmlPage(title: string, style: string, body: readonly string[]): string {
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    `<title>${safe(title)}</title>`,
    `<style>${style}</style>`,
    '</head>',
    '<body>',
    '<main>',
    ...body,
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
