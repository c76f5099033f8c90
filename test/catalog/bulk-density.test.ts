import { describe, expect, it } from 'vitest';
import { readProducts } from '../../src/catalog/shelf.js';
import { bulkDensityOf } from '../../src/dose/density.js';
import { closeShelf } from '../../src/label/close.js';
import { unwrap } from '../../src/problem.js';

const shelf = (cell: string, delimiter = ','): string =>
  ['id', 'form', 'K2O', 'bulk_density'].join(delimiter) +
  `\n${['a', 'powder', '20', cell].join(delimiter)}\n${['b', 'powder', delimiter === ';' ? '20,5' : '20', ''].join(delimiter)}\n`;

describe('bulk_density', () => {
  it.each([
    ['0.95', 0.95, undefined],
    ['0.95 g/mL', 0.95, undefined],
    ['0.95 +/- 0.1', 0.95, 0.1],
    ['0.95±0.1', 0.95, 0.1],
    ['0.95 +- 0.1 g/mL', 0.95, 0.1],
  ])('"%s"', (cell, value, off) => {
    const read = readProducts(shelf(cell), 'shelf.csv');
    expect(read.ok && [read.value[0]!.bulkDensity, read.value[0]!.bulkDensityOff]).toEqual([value, off]);
  });

  it('with decimal commas', () => {
    const read = readProducts(shelf('0,95 +/- 0,1', ';'), 'shelf.csv');
    expect(read.ok && [read.value[0]!.bulkDensity, read.value[0]!.bulkDensityOff]).toEqual([0.95, 0.1]);
  });

  it.each([['0.95 +/- much'], ['much +/- 0.1'], ['950 +/- 0.1'], ['0.95 +/- 9'], ['-0.95'], ['0.95 +/- ']])(
    'refuses "%s"',
    (cell) => {
      expect(readProducts(shelf(cell), 'shelf.csv')).toMatchObject({
        ok: false,
        problems: [{ where: { line: 2, field: 'bulk_density' } }],
      });
    },
  );

  it('is as good as it says: half of it is the standard deviation', async () => {
    const [read] = await closeShelf(unwrap(readProducts(shelf('0.8 +/- 0.04'), 'shelf.csv')));
    expect(bulkDensityOf(read!)?.spread).toBeCloseTo(0.025, 12);
  });
});
