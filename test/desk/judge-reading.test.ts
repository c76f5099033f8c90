import { describe, expect, it } from 'vitest';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { meterSheet } from '../../src/report/meter.js';
import { renderText } from '../../src/report/text.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { exampleFiles } from './benches.js';

const moss = exampleFiles('moss-without-ammonium');

async function judged(wishes: Wishes) {
  const { result } = await judgeReading(moss, { reading: ['0.31'], ...wishes });
  return { ...result, text: renderText(meterSheet(result), { columns: 200, colour: false }) };
}

/** The sheet for the same wishes; there is one. */
async function sheetFor(wishes: Wishes) {
  const [sheet] = (await mixingSheets(moss, wishes)).results;
  if (sheet === undefined || sheet.status === 'cannot') throw new Error('there is nothing to mix by');
  return { litres: sheet.litres, measured: sheet.steps.map(({ id, measures }) => [id, measures[0]!.words]) };
}

describe('a reading is judged for as much as was to be mixed', () => {
  it.each([undefined, '8 L', '1 US gal'])('the sheet for %s and the reading of it are about one can', async (mix) => {
    const wishes = mix === undefined ? {} : { mix };
    const { litres, measured } = await sheetFor(wishes);
    const told = await judged(wishes);
    expect(told.litres).toBeCloseTo(litres, 9);
    expect(told.plan.map(({ id, words }) => [id, words])).toEqual(measured);
  });

  it('a can of 8 L is rescued as one of 8 L; a can that holds 8 L is not', async () => {
    const mixed = await judged({ mix: '8 L' });
    expect(mixed.litres).toBe(8);
    expect(mixed.text).toContain('not topped up (still at 6 L)');
    const room = await judged({ brim: '8 L' });
    expect(room.litres).toBe(4);
    expect(room.text).toContain('not topped up (still at 3 L)');
  });

  it('water that was measured dilutes the doses of the sheet, which stay what they were', async () => {
    const { measured } = await sheetFor({ mix: '8 L' });
    const told = await judged({ mix: '8 L', measured: '9 L', reading: ['0.2'] });
    expect(told.litres).toBe(9);
    expect(told.plan.map(({ id, words }) => [id, words])).toEqual(measured);
  });

  it('refuses a can that is smaller than the mix', async () => {
    await expect(judged({ mix: '8 L', brim: '5 L' })).rejects.toMatchObject({
      problems: [{ code: 'can-too-small', where: { field: '--brim' } }],
    });
  });
});
