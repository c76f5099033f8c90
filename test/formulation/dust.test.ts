import { describe, expect, it } from 'vitest';
import { blend } from '../../src/blend/blend.js';
import { withoutDust } from '../../src/formulation/dust.js';
import { benches } from '../feed/random-benches.js';
import { powder, request } from '../feed/fixtures.js';
import { programOf } from '../feed/program.js';

const base = powder('base', { 'NO3-N': 10, K: 20 });
const iron = powder('iron', { Fe: 10 });

describe('rounding dust', () => {
  it('is what changes no element by a hundred-thousandth of what is wanted of it', () => {
    // 3.6e-8 g/L of iron powder at 100 mg/g is 3.6e-6 mg/L; a hundred-thousandth of the 1 mg/L that may be is 1e-5
    const kept = withoutDust(
      { products: [1, 3.6e-8], waters: [1] },
      programOf(request([base, iron], { Fe: { max: 1 } })),
    );
    expect(kept.products).toEqual([1, 0]);
    // as much of a trace element as it is wanted is no dust, though no scale could weigh it
    const little = { products: [1, 1e-6], waters: [1] };
    expect(withoutDust(little, programOf(request([base, iron], { Fe: { max: 1e-4 } })))).toEqual(little);
  });

  it('stays where a limit is missed without it', () => {
    // 1 mg of N too little by a millionth: the trickle of the second powder makes it up
    const trickle = powder('trickle', { 'NO3-N': 10 });
    const tight = programOf(request([base, trickle], { N: { min: 100, max: 150 } }));
    const amounts = { products: [1 - 1e-6, 1e-6], waters: [1] };
    expect(withoutDust(amounts, tight)).toEqual(amounts);
    const loose = programOf(request([base, trickle], { N: { min: 99, max: 150 } }));
    expect(withoutDust(amounts, loose).products).toEqual([1 - 1e-6, 0]);
  });

  it('is in no feed of 30 random benches, and every limit holds without it', async () => {
    let items = 0;
    for (const { seed, request: made } of await benches(30, true, 7_000)) {
      const result = await blend(made, { prices: false });
      if (result.status !== 'made') throw new Error(`${seed}: ${result.status}`);
      for (const item of result.items) {
        const { content } = made.shelf.find(({ id }) => id === item.id)!.composition;
        const perLitre = item.gramsPerLitre ?? item.millilitresPerLitre!;
        const felt = result.elements.some(({ element, max, aim, min }) => {
          const wanted = made.programme.bands[element] ? (max ?? aim ?? min ?? 1) : 1;
          return perLitre * content[element].high >= 1e-5 * wanted;
        });
        expect(felt, `${seed} ${item.id} ${perLitre}`).toBe(true);
        items += 1;
      }
      expect(
        result.rules.every(({ holds }) => holds),
        `${seed}`,
      ).toBe(true);
    }
    expect(items).toBeGreaterThan(60);
  });
});
