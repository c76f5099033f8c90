import { describe, expect, it } from 'vitest';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { pageOf, sheetHtml, sheetText } from '../../src/report/sheet-page/index.js';
import type { MixingSheet, SheetStep } from '../../src/sheet/mixing-sheet.js';
import { exampleFiles } from '../desk/benches.js';
import { mixed } from '../sheet/mixed.js';

async function moss(): Promise<MixingSheet> {
  const { results } = await mixingSheets(exampleFiles('moss-without-ammonium'), {});
  return mixed(results[0]!);
}

describe('steps on the sheet', () => {
  it('water filled up on the way takes no number, so that readings find their step', async () => {
    const sheet = await moss();
    const [first, ...rest] = sheet.steps;
    const full = rest.map((step): SheetStep => ({ ...step, litres: sheet.litres }));
    const filled: MixingSheet = { ...sheet, steps: [first, ...full] };
    expect(pageOf(sheet).lines.map((line) => line.step)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(pageOf(filled).lines.map((line) => line.step)).toEqual([1, 2, null, 3, 4, 5]);
  });

  it('where limits are missed anyway, a measure as good as the chosen one is offered', async () => {
    const sheet = await moss();
    const [first, ...rest] = sheet.steps;
    const [chosen] = first.measures;
    const spoon = (words: string, factor: number) => ({
      ...chosen,
      tool: 'spoon',
      words,
      amount: chosen.amount * factor,
      keeps: false,
    });
    const step: SheetStep = { ...first, measures: [chosen, spoon('a spoon', 1.02), spoon('a ladle', 1.2)] };
    const others = (one: MixingSheet): string => pageOf({ ...one, steps: [step, ...rest] }).lines[1]!.others;
    expect(others(sheet)).toBe('');
    expect(others({ ...sheet, status: 'infeasible', violations: [] })).toBe('or a spoon');
  });

  it('what the pen will not notice is to be ticked off, on the short sheet and on paper', async () => {
    const sheet = await moss();
    const shown = (products: string[]): string[] => {
      const unseen: MixingSheet['unseen'] = [{ kind: 'salt' }, ...(products.length > 0 ? [ITEMS(products)] : [])];
      const one = { ...sheet, unseen };
      return [sheetText(one, { columns: 200, colour: false }), sheetHtml([one])];
    };
    for (const text of shown(['Urea', 'Kelp Liquid'])) {
      expect(text).toContain('The pen will not notice these: Urea, Kelp Liquid. Tick them off as they go in.');
      expect(text).toContain('If the reading at the end is off');
    }
    for (const text of shown(['Urea'])) expect(text).toContain('The pen will not notice this: Urea.');
    for (const text of shown([])) expect(text).not.toContain('will not notice');
  });
});

const ITEMS = (products: string[]) => ({ kind: 'items', products }) as const;
