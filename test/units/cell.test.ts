import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellText, safeCell } from '../../src/units/index.js';

/** What spreadsheets take for the beginning of a formula (OWASP, CSV injection: = + - @ tab and carriage return). */
const RUNS = /^\s*[=+\-@]/;

describe('a cell', () => {
  it.each(['=1+1', '+cmd', '-2+3', '@SUM(A1)', "'=1", 'a;=1+1', 'a\t=1', 'a; -2+3', '\t=1', 'plain', '-3.5', '1e-3'])(
    '%j comes back as it went',
    (text) => {
      expect(cellText(safeCell(text))).toBe(text);
    },
  );

  it('leaves numbers alone', () => {
    for (const text of ['-3.5', '-0,4', '1e-7', '12']) expect(safeCell(text)).toBe(text);
  });

  it('never begins a formula at any separator, and always comes back', () => {
    const marks = fc.constantFrom('=', '+', '-', '@', "'", ';', '\t', ' ', 'a', '1', '"', '\n');
    fc.assert(
      fc.property(fc.string({ unit: marks, maxLength: 12 }), (text) => {
        const cell = safeCell(text);
        expect(cellText(cell)).toBe(text);
        for (const delimiter of [';', '\t']) {
          const pieces: string[][] = parse(`x,${cell}`, {
            delimiter,
            relax_column_count: true,
            relax_quotes: true,
            quote: false,
          });
          for (const piece of pieces.flat()) expect(RUNS.test(piece) && Number.isNaN(Number(piece))).toBe(false);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
