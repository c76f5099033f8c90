import { describe, expect, it } from 'vitest';
import type { Column } from '../../src/catalog/columns.js';
import { readTable } from '../../src/catalog/table.js';
import { type Problem, problemLine } from '../../src/problem.js';
import { codes } from './told.js';

const COLUMNS: Column[] = [
  { name: 'id', required: true },
  { name: 'name' },
  { name: 'K2O', unit: '%', synonyms: ['potash'] },
  { name: 'bulk_density', unit: 'g/mL' },
  { name: 'notes' },
];

function read(text: string) {
  const problems: Problem[] = [];
  const table = readTable(text, 'shelf.csv', COLUMNS, problems);
  return { table, problems, rows: table.rows.map((row) => [row.line, ...COLUMNS.map((c) => row.text(c.name) ?? '')]) };
}

describe('a CSV file', () => {
  it('is read by column name, in any order, with the line each row begins on', () => {
    const { rows, problems } = read('# a comment, "odd\n\nK2O,id\n12,a\n\n# between\n,b\n');
    expect(rows).toEqual([
      [4, 'a', '', '12', '', ''],
      [7, 'b', '', '', '', ''],
    ]);
    expect(problems).toEqual([]);
  });

  it('may begin with a byte-order mark and end its lines with CRLF or CR', () => {
    for (const end of ['\r\n', '\r', '\n']) {
      const { rows, problems } = read(`\uFEFFid,K2O${end}a,12${end}${end}b,13${end}`);
      expect(rows.map(([line, id, , k]) => [line, id, k])).toEqual([
        [2, 'a', '12'],
        [4, 'b', '13'],
      ]);
      expect(problems).toEqual([]);
    }
  });

  it('keeps its line count past quoted cells that hold line ends, commas and quotes', () => {
    const { rows } = read('id,notes\r\na,"two\r\nlines, and ""quotes"""\r\nb,x\r\n');
    expect(rows).toEqual([
      [2, 'a', '', '', '', 'two\nlines, and "quotes"'],
      [4, 'b', '', '', '', 'x'],
    ]);
  });

  it('understands headers in any case, with spaces, units and the words of the trade', () => {
    const { rows, problems } = read('ID,Bulk Density (g/mL),Potash %,Notes\na,1.1,12,n\n');
    expect(problems).toEqual([]);
    expect(rows).toEqual([[2, 'a', '', '12', '1.1', 'n']]);
  });

  it.each([
    [';', 'semicolons'],
    ['\t', 'tabs'],
  ])('may be separated by %j, with a warning', (mark, name) => {
    const { rows, problems } = read(
      ['id', 'name', 'K2O'].join(mark).concat('\n', ['a', 'one, two', '12'].join(mark), '\n'),
    );
    expect(rows).toEqual([[2, 'a', 'one, two', '12', '', '']]);
    expect(problems.map(problemLine)).toEqual([
      `shelf.csv:1: found ${name} between the cells; expected commas. Read with ${name}; nothing to do if the columns are right.`,
    ]);
  });

  it('lets empty columns at its right edge go', () => {
    const { rows, problems } = read('id,K2O,,\na,12,,\nb,13,,\n');
    expect(rows).toHaveLength(2);
    expect(problems).toEqual([]);
  });

  it('drops lines of empty cells', () => {
    expect(read('id,K2O\n,\n a ,12\n , \n').rows).toEqual([[3, 'a', '', '12', '', '']]);
  });

  it('tells every ragged row and stray quote at once', () => {
    const { problems, rows } = read('id,K2O\na,12,5\nb\n"c,1\nd,2\ne"e,3\nf,4\n');
    expect(codes(problems)).toEqual(['csv-quote@4', 'csv-quote@6', 'csv-ragged@2', 'csv-ragged@3']);
    expect(rows.map(([line]) => line)).toEqual([5, 7]);
  });

  it('tells every unknown, repeated and missing column at once', () => {
    const { problems } = read('nam,K20,K2O,potash,colour\na,1,2,3,red\n');
    expect(problems.map(problemLine)).toEqual([
      'shelf.csv:1 (nam): found column "nam"; expected a column this file can have. Did you mean name? Otherwise put it in notes.',
      'shelf.csv:1 (K20): found column "K20"; expected a column this file can have. Did you mean K2O? Otherwise put it in notes.',
      'shelf.csv:1 (potash): found "potash" beside "K2O"; expected one column for K2O. Keep the one you mean.',
      'shelf.csv:1 (colour): found column "colour"; expected a column this file can have. Known: id, name, K2O, bulk_density, notes. Put anything else in notes.',
      'shelf.csv:1: found no column id; expected a column id. Add id to the first line and fill it in.',
    ]);
  });

  it('holds ids such as __proto__, result and constructor like any other', () => {
    const { rows, problems } = read('id,name\n__proto__,a\nresult,b\nconstructor,c\n');
    expect(rows.map(([, id]) => id)).toEqual(['__proto__', 'result', 'constructor']);
    expect(problems).toEqual([]);
  });

  it('takes a column called __proto__ or constructor for unknown', () => {
    expect(codes(read('id,__proto__,constructor\na,1,2\n').problems)).toEqual(['column-unknown@1', 'column-unknown@1']);
  });

  it('refuses text that is no text, at its line', () => {
    expect(codes(read('id\na\n\u0000\u0001PK\n').problems)).toEqual(['file-binary@3']);
  });

  it('reads 5 MB, and refuses what is longer', () => {
    const row = `${'x'.repeat(1000)},12,"a note, of some length, such as a grower writes beside a jar"\n`;
    const five = `name,K2O,notes,id\n${Array.from({ length: 4_900 }, (_, i) => row.replace('\n', `,p${i}\n`)).join('')}`;
    expect(five.length).toBeGreaterThan(5_000_000 - 100_000);
    expect(read(five).table.rows).toHaveLength(4_900);
    expect(codes(read(five + five).problems)).toEqual(['file-too-long@-']);
  });

  it('refuses one endless line and endless headers', () => {
    expect(codes(read('a'.repeat(5_000_000)).problems)).toEqual(['csv-no-header@1']);
    // brackets of units without end: minutes where each is searched for its other one
    expect(codes(read(`id,${'('.repeat(1_000_000)}\na,1\n`).problems)).toEqual(['column-unknown@1']);
    expect(codes(read(`id,${'a,'.repeat(100_000)}\n1\n`).problems)).toContain('too-many-columns@1');
    expect(codes(read(`id,K2O\n${'"a,1\n'.repeat(50_000)}`).problems)).toContain('csv-quote@2');
  });
});
