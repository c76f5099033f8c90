import { describe, expect, it } from 'vitest';
import { withoutProduct, withProductCell, writtenProducts } from '../../src/catalog/edit-product.js';

const SHELF = `# what stands there
id,name,form,N (%),notes
base,"Base, the blue jar",powder,6,"says ""shake"""

# from the neighbour
cal,Calcium powder,powder,11.5
`;

describe('a shelf file changed in one place, every other character kept', () => {
  it('is read row by row, with the lines that a reader counts', () => {
    expect(writtenProducts(SHELF)!.map(({ id, line }) => [id, line])).toEqual([
      ['base', 3],
      ['cal', 6],
    ]);
    expect(Object.fromEntries(writtenProducts(SHELF)![0]!.cells)).toEqual({
      id: 'base',
      name: 'Base, the blue jar',
      form: 'powder',
      N: '6',
      notes: 'says "shake"',
    });
    expect(writtenProducts('nothing,of\na,shelf\n')).toBeNull();
    expect(writtenProducts('id,name\na,"never closed\n')).toBeNull();
  });

  it.each([
    ['a plain cell', 'cal', 'N', '12', ['powder,11.5', 'powder,12']],
    ['a cell in quotes', 'base', 'name', 'Base', ['"Base, the blue jar"', 'Base']],
    ['a text with a comma', 'cal', 'name', 'Calcium, fine', ['Calcium powder', '"Calcium, fine"']],
    ['a row that ended early', 'cal', 'notes', 'new', ['11.5\n', '11.5,new\n']],
  ] as const)('%s', (_, id, column, value, [from, to]) => {
    expect(withProductCell(SHELF, id, column, value)).toBe(SHELF.replace(from, () => to));
  });

  it('takes a column more, a row less, and no row that is not there or there twice', () => {
    expect(withProductCell('id,form\na,powder\nb,powder', 'b', 'price', '4')).toBe(
      'id,form,price\na,powder,\nb,powder,4',
    );
    expect(withoutProduct(SHELF, 'base')).toBe(SHELF.replace(/base.*\n/, ''));
    expect(withoutProduct('id,form\na,powder\nb,powder', 'b')).toBe('id,form\na,powder\n');
    expect(withoutProduct(SHELF, 'none')).toBeNull();
    expect(withProductCell('id,form\na,powder\na,liquid\n', 'a', 'form', 'powder')).toBeNull();
  });

  it('writes a decimal comma where semicolons part the cells', () => {
    expect(withProductCell('id;N\na;6,5\n', 'a', 'N', '7.5')).toBe('id;N\na;"7,5"\n');
  });
});
