import { describe, expect, it } from 'vitest';
import { closeShelf } from '../../src/label/close.js';
import { readProducts } from '../../src/catalog/shelf.js';
import { compiledPractice } from '../../src/year/compiled-practice.js';
import { daysAfter, daysBetween } from '../../src/year/days.js';
import { storageOf } from '../../src/year/storage.js';
import { clean } from '../catalog/told.js';
import { CRITICAL_HUMIDITY, MIXED_HUMIDITY } from '../reference/critical-humidity.js';

const kept = async (rows: string) => {
  const products = clean(readProducts(`id,form,basis,formula,N,K2O,derived_from\n${rows}`, 'shelf.csv'));
  return storageOf(await closeShelf(products), compiledPractice.humidities);
};

describe('how jars are kept', () => {
  it('tells of a pure salt the published humidity, or the lower one of commercial grades', async () => {
    const rows = CRITICAL_HUMIDITY.map(([formula], i) => `s${i},powder,w/w,${formula},,,\n`).join('');
    const told = await kept(rows);
    for (const [i, [formula, pure, commercial]] of CRITICAL_HUMIDITY.entries()) {
      expect(told[i]!.draws?.humidity, formula).toBe(Math.min(pure, commercial ?? pure));
      expect(told[i]!.draws?.isBlend).toBe(false);
    }
  });

  it('tells of a mixture its worst pair, never more than any of its salts, and of others what blends do', async () => {
    const rows = MIXED_HUMIDITY.map(([names], i) => `m${i},powder,w/w,,20,,${names.join('; ')}\n`).join('');
    const told = await kept(rows);
    // blends in general draw water near 55 %: only one pair of the table does sooner
    expect(told.map(({ draws }) => draws?.humidity)).toEqual(MIXED_HUMIDITY.map(([, pair]) => Math.min(pair, 55)));
    const [other, silent, liquid] = await kept(
      'a,powder,w/w,,12,20,potassium nitrate; monoammonium phosphate\nb,powder,w/w,,20,20,\nc,liquid,w/v,,3,2,urea; potassium nitrate\n',
    );
    expect([other!.draws, silent!.draws].map((draws) => [draws?.humidity, draws?.isBlend])).toEqual([
      [55, true],
      [55, true],
    ]);
    expect(liquid!.draws).toBeNull();
  });

  it('tells what feeds fire, and where only its salts may', async () => {
    const [nitrate, epsom, mixed] = await kept(
      'a,powder,w/w,KNO3,,,\nb,powder,w/w,MgSO4·7H2O,,,\nc,powder,w/w,,13,40,potassium nitrate; urea\n',
    );
    expect(nitrate!.oxidiser).toEqual({ codes: ['H272'], may: false });
    expect(epsom!.oxidiser).toBeNull();
    expect(mixed!.oxidiser?.may).toBe(true);
  });
});

it('days go by the calendar, leap days and the turn of a century with them', () => {
  expect(daysAfter('2028-02-28', 1)).toBe('2028-02-29');
  expect(daysAfter('2100-02-28', 1)).toBe('2100-03-01');
  expect(daysAfter('2026-12-01', 363)).toBe('2027-11-29');
  expect(daysAfter('2027-01-01', -1)).toBe('2026-12-31');
  expect(daysBetween('2026-12-01', '2027-12-01')).toBe(365);
});
