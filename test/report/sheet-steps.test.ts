import { describe, expect, it } from 'vitest';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import type { MixingSheet } from '../../src/sheet/mixing-sheet.js';
import { pageOf } from '../../src/report/sheet-page/index.js';
import { exampleFiles } from '../desk/benches.js';

async function moss(): Promise<MixingSheet> {
  const { results } = await mixingSheets(exampleFiles('moss-without-ammonium'), {});
  return results[0]!.sheet!;
}

describe('steps on the sheet', () => {
  it('water filled up on the way takes no number, so that readings find their step', async () => {
    const sheet = await moss();
    const [first, ...rest] = sheet.steps;
    const filled = { ...sheet, steps: [first!, ...rest.map((step) => ({ ...step, litres: sheet.litres }))] };
    expect(pageOf(sheet).lines.map((line) => line.step)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(pageOf(filled).lines.map((line) => line.step)).toEqual([1, 2, null, 3, 4, 5]);
  });

  it('where limits are missed anyway, a measure as good as the chosen one is offered', async () => {
    const sheet = await moss();
    const [first, ...rest] = sheet.steps;
    const [chosen] = first!.measures;
    const spoon = (words: string, factor: number) => ({
      ...chosen!,
      tool: 'spoon',
      words,
      amount: chosen!.amount * factor,
      keeps: false,
    });
    const steps = [{ ...first!, measures: [chosen!, spoon('a spoon', 1.02), spoon('a ladle', 1.2)] }, ...rest];
    const others = (status: MixingSheet['status']): string => pageOf({ ...sheet, status, steps }).lines[1]!.others;
    expect(others('kept')).toBe('');
    expect(others('infeasible')).toBe('or a spoon');
  });
});
