import { ionsOfMix, usualIons } from '../../can/ec.js';
import { openBench } from '../../desk/open-bench.js';
import { ecNumber } from '../../report/sheet-page/readings.js';
import { amount, figure, percent } from '../../report/figures.js';
import type { SheetOfFeed } from '../../sheet/mixing-sheet.js';
import type { Wishes } from '../../desk/wishes.js';
import type { StepSum } from '../sheet-view.js';
import type { BenchTexts } from '../texts.js';
import { ecSumOf } from './ec-ions.js';
import { filesOf } from './files.js';
import type { SumLine } from './sums.js';

/**
 * By the number of the step, as the sheet counts: 1 the water. A reading that is told by more than the ions (by good cans before, by what
 * the pen shows of the water) has no such sum.
 */
export async function stepSums(
  texts: BenchTexts,
  wishes: Wishes,
  sheet: Extract<SheetOfFeed, { steps: unknown }>,
): Promise<Map<number, StepSum>> {
  const { shelf, waters } = await openBench(filesOf(texts), wishes);
  const share = (name: string): number => sheet.water.parts.find((part) => part.name === name)?.share ?? 0;
  const shares = waters.map(({ name }) => share(name));
  const water = waters.flatMap(({ name }, i): SumLine[] =>
    shares[i]! > 0 ? [{ of: name, how: 'the water', comes: percent(shares[i]!) }] : [],
  );
  const sums = new Map<number, StepSum>();
  const at = (step: number, until: number, litres: number, mSPerCm: number): void => {
    const there = sheet.steps.slice(0, until);
    const products = shelf.products.map(({ id, composition: { per } }) => {
      const one = there.find((other) => other.id === id);
      return one ? ((per === 'g' ? one.grams : one.millilitres) ?? 0) / litres : 0;
    });
    const ions = ionsOfMix({ products, waters: shares }, shelf.products, waters, 'value', usualIons);
    const ec = ecSumOf(ions);
    if (ecNumber(ec.microSiemensPerCm / 1000) !== ecNumber(mSPerCm)) return;
    const inCan = shelf.products.flatMap(({ name, id, composition: { per } }, i): SumLine[] =>
      products[i]! > 0
        ? [
            {
              of: name || id,
              how: `${amount(products[i]! * litres, per)} in ${figure(litres)} L`,
              comes: `${amount(products[i]!, per)}/L`,
            },
          ]
        : [],
    );
    sums.set(step, { inCan: [...inCan, ...water], ec });
  };
  at(1, 0, sheet.firstLitres, sheet.water.reading.mSPerCm);
  sheet.steps.forEach((step, i) => {
    at(i + 2, i + 1, step.litres, step.reading.mSPerCm);
  });
  at(sheet.steps.length + 2, sheet.steps.length, sheet.litres, sheet.end.reading.mSPerCm);
  return sums;
}
