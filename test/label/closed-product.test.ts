import { milliSiemensPerCm } from '../../src/units/index.js';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { labelFacts } from '../../src/can/label-facts.js';
import { readProducts } from '../../src/catalog/shelf.js';
import { closeProduct, closeShelf } from '../../src/label/close.js';
import type { Product } from '../../src/label/product.js';
import { labelKey, solveLabels } from '../../src/label/solved.js';
import { unwrap } from '../../src/problem.js';
import { powder, request, row } from '../feed/fixtures.js';

const root = join(import.meta.dirname, '../..');
const one = (header: string, cells: string): Product => unwrap(readProducts(`id,${header}\nx,${cells}`, 'x.csv'))[0]!;
const factsOf = async (product: Product) => labelFacts(await closeProduct(product));

describe('a label with another list, density or formula', () => {
  const listed = one('form,N,NH4-N,derived_from', 'powder,10,10,ammonium sulfate');
  const bare = one('form,N,NH4-N', 'powder,10,10');
  const chloride = { ...listed, derivedFrom: ['ammonium chloride'] };
  const pure = { ...listed, derivedFrom: [], formula: '(NH4)2SO4' };

  it('is closed anew, one after the other', async () => {
    const first = await closeProduct(listed);
    const second = await closeProduct(chloride);
    expect(first.ions.value.SO4).toBeCloseTo(first.ions.value.NH4 / 2, 6);
    expect(second.ions.value.Cl).toBeCloseTo(second.ions.value.NH4, 6);
    expect(second.ions.value.SO4).toBe(0);
    expect((await closeProduct(pure)).ions.from).toBe('formula');
    expect((await closeProduct({ ...listed, derivedFrom: [] })).ions).toEqual((await closeProduct(bare)).ions);
  });

  it('has the facts of its own list, whatever was asked before and at the same time', async () => {
    const asked = [listed, chloride, bare, pure, { ...bare, ec: milliSiemensPerCm(0.7) }, listed, chloride];
    const together = await Promise.all(asked.map(factsOf));
    for (const [i, product] of asked.entries()) {
      // the same composition by another list, for the first time in a copy of its own
      expect(together[i], `${i}`).toEqual(await factsOf(structuredClone(product)));
    }
    expect(together[1]!.ec.mSPerCm).not.toBeCloseTo(together[0]!.ec.mSPerCm, 2);
    expect(together[2]!.ec.from).toBe('label alone');
    expect(together[4]!.ec.mSPerCm).toBeCloseTo(0.7, 3);
    expect(together[5]).toEqual(together[0]);
  });

  it('is closed beside others on a shelf as it is alone, and once where several say the same', async () => {
    const shelf = [listed, chloride, { ...listed, id: 'again' }, bare, pure, { ...listed, ec: milliSiemensPerCm(0.7) }];
    const closed = await closeShelf(shelf);
    for (const [i, product] of shelf.entries()) {
      const alone = await closeProduct(product);
      expect(closed[i]).toEqual(alone);
      expect(closed[i]!.composition).toEqual(alone.composition);
      expect([closed[i]!.ions, closed[i]!.measuredIons]).toEqual([alone.ions, alone.measuredIons]);
    }
    expect(closed[2]!.ions.value).toBe(closed[0]!.ions.value);
    expect(closed[1]!.ions.value).not.toEqual(closed[0]!.ions.value);
  });

  it('takes what its programs said before, and nothing of another label', async () => {
    const solved = await solveLabels([listed]);
    const [one, other] = await closeShelf([listed, chloride], solved);
    const said = [...solved.values()][0]!.bySources;
    expect(one!.ions.value).toBe(said?.verdict === 'closed' ? said.value : null);
    expect(other!.ions).toEqual((await closeProduct(chloride)).ions);
    const dense = { ...listed, density: 1.2 };
    expect(labelKey(dense)).not.toBe(labelKey(listed));
  });

  it('counts the density of a liquid', async () => {
    // by hand: 600 mg K2O is 498 mg K, as sulfate 1110 mg: too much for a mL of 1 g, room enough in one of 2 g
    const light = one('form,basis,density,K2O,derived_from', 'liquid,w/v,1,60,potassium chloride; potassium sulfate');
    const sulfur = async (product: Product) => (await closeProduct(product)).composition.closed!.get('S')!.high;
    const before = await sulfur(light);
    expect(before).toBeLessThan(100);
    expect(await sulfur({ ...light, density: 2 })).toBeGreaterThan(200);
    expect(await sulfur(light)).toBe(before);
  });

  it('is not moved by what happens to the row while it is closed', async () => {
    const changing = structuredClone(listed) as Product & { derivedFrom: string[] };
    const closing = closeProduct(changing);
    changing.derivedFrom.splice(0, 1, 'ammonium chloride');
    changing.composition.content.N.high = 1e6;
    const closed = await closing;
    expect(closed.ions).toEqual((await closeProduct(listed)).ions);
    expect(closed.composition.content.N.high).toBe(listed.composition.content.N.high);
  });
});

describe('a closed product', () => {
  const closed = powder('salt', { 'NO3-N': 13.9, K: 38.7 }, { formula: 'KNO3', price: 4, pack: 1000, onHand: 5 });

  it('stays as it is when it is closed again', async () => {
    expect(await closeProduct(closed)).toBe(closed);
  });

  it('keeps its label on another jar', () => {
    const next = closed.with({ onHand: undefined, price: 5 });
    expect([next.onHand, next.price, next.pack]).toEqual([undefined, 5, 1000]);
    expect('onHand' in next).toBe(false);
    expect(next.ions).toBe(closed.ions);
    expect(next.composition).toBe(closed.composition);
    expect(closed.onHand).toBe(5);
  });

  it('cannot be changed, and a copy made by spreading has no label', () => {
    expect(Object.isFrozen(closed)).toBe(true);
    const copy = { ...closed, price: 5 };
    expect('composition' in copy || 'ions' in copy).toBe(false);
    // @ts-expect-error a copy is no closed product
    expect(() => labelFacts(copy)).toThrow(TypeError);
    // @ts-expect-error nor with another list
    request([{ ...closed, derivedFrom: ['urea'] }], {});
    // @ts-expect-error a copy is no row either: what was narrowed by one list is not closed by another
    const again: Product = { ...closed, derivedFrom: ['urea'] };
    expect(again.composition).toBeUndefined();
  });

  it('is asked for wherever a mix is made or judged: a row alone is refused', () => {
    const open = row('open', { 'NO3-N': 10 });
    // @ts-expect-error its label is open
    request([open], {});
    // @ts-expect-error its label is open
    expect(() => labelFacts(open)).toThrow(TypeError);
    // @ts-expect-error what it lacks cannot be written beside it
    request([{ ...open, ions: closed.ions, measuredIons: undefined, disagreement: undefined }], {});
  });

  it('of the fixtures is what closing makes of the same row', async () => {
    // charges that balance
    const asIs = powder('x', { 'NO3-N': 10, 'NH4-N': 2, K: 20, Ca: 3, S: 1.45 });
    const made = await closeProduct(row('x', { 'NO3-N': 10, 'NH4-N': 2, K: 20, Ca: 3, S: 1.45 }));
    expect(made.composition.content).toEqual(asIs.composition.content);
    expect(made.ions.value).toEqual(asIs.ions.value);
  });
});

describe('in the whole house', () => {
  const files = ['src', 'solver', 'test'].flatMap((room) =>
    readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => [`${room}/${name}`, readFileSync(join(root, room, name), 'utf8')] as const),
  );
  const naming = (pattern: RegExp): string[] => files.flatMap(([name, text]) => (pattern.test(text) ? [name] : []));

  it('only the room of labels and the fixture make a closed product', () => {
    expect(naming(/\bnew ClosedProduct\((?!\/)/).sort()).toEqual([
      'src/label/close.ts',
      'src/label/closed-product.ts',
      'test/feed/fixtures.ts',
    ]);
    // everybody else imports its type alone
    expect(naming(/import \{[^}]*(?<!type )\bClosedProduct\b[^}]*\} from/).sort()).toEqual([
      'src/label/close.ts',
      'test/feed/fixtures.ts',
    ]);
  });

  it('labels are closed where products come in, and nowhere else', () => {
    const closing = naming(/\bclose(?:Product|Shelf)\(/).filter((name) => name.startsWith('src/'));
    expect(closing.sort()).toEqual(['src/desk/close-labels.ts', 'src/label/close.ts']);
  });

  it('nothing is kept by the identity of a product, a shelf or a label', () => {
    // those that are left are kept by all that they depend on: a batch with its moments, drawn doses, a water, tables of programmes with the wish,
    // a programme with its first water and cap, a limit with its cans, texts of a bench
    expect(
      naming(/\bnew WeakMap\b/)
        .filter((name) => !name.startsWith('test/'))
        .sort(),
    ).toEqual([
      'src/can/ec.ts',
      'src/chance/batches.ts',
      'src/formulation/ec-row.ts',
      'src/meter/expected.ts',
      'src/meter/rescue-program.ts',
      'src/page/key.ts',
      'src/page/places/use-moving.ts',
      'src/programme/resolve.ts',
      'src/year/journal/lesson.ts',
    ]);
    expect(naming(/\b(?:Weak)?Map<(?:Closed)?Product\b/)).toEqual([]);
  });
});
