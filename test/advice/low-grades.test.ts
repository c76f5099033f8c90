import { expect, it } from 'vitest';
import { likelyGradeIons } from '../../src/advice/bare-grade-ec.js';
import { conductivity, NONE } from '../../src/chemistry/conductivity.js';
import { ionsPerGram } from '../../src/chemistry/ions.js';
import { formula } from '../../src/chemistry/formula.js';
import { plus } from '../../src/can/ec.js';

const grade = (text: string, N: number, P2O5: number, K2O: number) => ({ text, percent: { N, P2O5, K2O } });
const rate = (unit: string) => ({ words: '', amount: { low: 5, high: 5 }, unit, count: 1, per: 'L' });

/** mS/cm of 1 g/L between the ends of what is likely. */
async function span(advice: Parameters<typeof likelyGradeIons>[0]) {
  const reads = (await likelyGradeIons(advice))!.map((ions) => conductivity(ions));
  return { low: Math.min(...reads), high: Math.max(...reads) };
}

it('a low grade in millilitres is water and a few salts, not a powder full of them', async () => {
  const low = grade('3-1-2', 3, 1, 2);
  const liquid = await span({ form: null, grade: low, rate: rate('mL') });
  const powder = await span({ form: 'powder', grade: low, rate: rate('g') });
  // urea with potassium phosphate and nitrate, by the salts themselves: 3-1-2 is KH2PO4 19 mg, KNO3 29 mg, urea 56 mg in a gram
  const made = plus(plus(NONE, ionsPerGram(formula('KH2PO4')), 0.019), ionsPerGram(formula('KNO3')), 0.029);
  expect(liquid.low).toBeLessThan(conductivity(made));
  // as ions alone: 2.14 mmol/L of nitrogen and 0.14 of phosphate, 2.3 meq/L at some 0.13 mS/cm each; half as much again for what goes untold
  expect(liquid.high).toBeLessThan(0.45);
  expect(liquid.high).toBeLessThan(powder.high);
  // neither millilitres nor a word: both
  const either = await span({ form: null, grade: low, rate: null });
  expect(either).toEqual({ low: Math.min(liquid.low, powder.low), high: Math.max(liquid.high, powder.high) });
});

it('a grade that no liquid holds is read as a powder', async () => {
  const full = grade('20-20-20', 20, 20, 20);
  expect(await span({ form: null, grade: full, rate: rate('mL') })).toEqual(
    await span({ form: 'powder', grade: full, rate: null }),
  );
});
