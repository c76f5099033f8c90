import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { conductivity, conductivityParts, NONE } from '../../src/chemistry/conductivity.js';
import { apportioned, ecSumOf } from '../../src/page/work/ec-ions.js';
import { feedQuestion } from '../../src/page/work/feed.js';
import { sinkQuestion } from '../../src/page/work/sink.js';

const EXAMPLES = fileURLToPath(new URL('../../examples', import.meta.url));
const textsOf = (name: string) =>
  Object.fromEntries(
    ['bench.yaml', 'shelf.csv'].map((file) => [file, readFileSync(join(EXAMPLES, name, file), 'utf8')]),
  );
const number = (text: string): number => Number(/[\d.]+/.exec(text)![0]);
/** What printed lines add up to, to the digit that they are printed in. */
const added = (lines: readonly { comes: string }[]): string =>
  lines.reduce((sum, { comes }) => sum + number(comes), 0).toFixed(1);

describe('the sums behind the figures of the page', () => {
  it('tell of each ion what handbooks have: limiting equivalent conductivities, S·cm²/eq', () => {
    // CRC Handbook of Chemistry and Physics, "Ionic conductivity and diffusion at infinite dilution", 25 °C (from memory, unchecked)
    const HANDBOOK = { K: 73.5, Ca: 59.5, Na: 50.1, NO3: 71.4, Cl: 76.3, SO4: 80.0 };
    const parts = conductivityParts({ ...NONE, K: 0.5, Ca: 0.5, Na: 0.5, NO3: 1, Cl: 0.4, SO4: 0.3 });
    for (const [ion, limiting] of Object.entries(HANDBOOK)) {
      const { alone, among } = parts.find((part) => part.ion === ion)!;
      expect(Math.abs(alone / limiting - 1), ion).toBeLessThan(0.02);
      expect(among).toBeLessThan(alone);
    }
  });

  it('add up: 0.01 mol/L of KCl to the 1413 µS/cm of its standard', () => {
    // OIML R 56: 1408 to 1413 µS/cm at 25 °C, by the definition of demal; the label of the usual bottle says 1413
    const { lines, total, microSiemensPerCm } = ecSumOf({ ...NONE, K: 10, Cl: 10 });
    expect(Math.abs(microSiemensPerCm / 1413 - 1)).toBeLessThan(0.005);
    expect(lines.slice(0, 2).map(({ of }) => of)).toEqual(['chloride Cl⁻, 51 %', 'potassium K⁺, 49 %']);
    expect(added(lines)).toBe(number(total).toFixed(1));
  });

  it.each(['moss-without-ammonium', 'spoons-alone', 'what-to-buy'])(
    '%s: parts of EC add up to the figure shown',
    async (name) => {
      const view = await feedQuestion({ texts: textsOf(name), feed: null, tuned: { way: 'given' } });
      const { lines, total } = view.ecSum!;
      expect(added(lines)).toBe(number(total).toFixed(1));
      expect(lines.reduce((sum, { of }) => sum + number(of.split(', ')[1]!), 0)).toBe(100);
      const shown = /EC at 25 °C: ([\d.]+) mS/.exec(JSON.stringify(view.ec))![1]!;
      expect(total.split(' = ')[1]).toBe(`${shown} mS/cm`);
      expect(view.bars.filter(({ mix, sum }) => Number(mix) > 0 && sum.length === 0)).toEqual([]);
      expect(view.doses.every(({ sum }) => sum.length > 2)).toBe(true);
      expect(view.nitrogen.filter(({ share, sum }) => share > 0 && sum.length === 0)).toEqual([]);
    },
  );

  it.each(['moss-without-ammonium', 'spoons-alone'])(
    '%s: money of the doses adds up to that of a can',
    async (name) => {
      const view = await feedQuestion({ texts: textsOf(name), feed: null, tuned: { way: 'given' } });
      const { lines, total, year } = view.money!;
      const cost = lines.reduce((sum, { comes }) => sum + number(comes), 0);
      // each line is rounded to three figures
      expect(Math.abs(cost / number(total) - 1)).toBeLessThan(0.005);
      const [can, inYear] = view.beside!.rows.map(([, , own]) => own!);
      expect(total).toBe(can);
      expect(year).toContain(`= ${inYear}.`);
    },
  );

  it('stand behind each reading of a sheet', async () => {
    const texts = textsOf('moss-without-ammonium');
    const { lines } = await sinkQuestion({ texts, feed: null, tuned: { way: 'given' }, mix: '', by: '' });
    const read = lines.filter(({ reading }) => reading !== null);
    expect(read.length).toBeGreaterThan(4);
    for (const { sum, reading } of read) {
      expect(Number((sum!.ec.microSiemensPerCm / 1000).toFixed(3))).toBe(Number(reading!.ec));
      expect(added(sum!.ec.lines)).toBe(number(sum!.ec.total).toFixed(1));
    }
  });

  it('are rounded so that they add up', () => {
    expect(apportioned([0.25, 0.25, 0.25, 0.25], 0)).toEqual(['1', '0', '0', '0']);
    expect(apportioned([33.34, 33.33, 33.33], 1)).toEqual(['33.4', '33.3', '33.3']);
  });

  it('are those of the model that the feed is told by', () => {
    const ions = { ...NONE, K: 1, Ca: 1.2, Mg: 0.5, NO3: 3.1, P: 0.4, SO4: 0.6, alkalinity: 0.3, carbonate: 0.3 };
    const parts = conductivityParts(ions);
    expect(parts.reduce((sum, { microSiemensPerCm }) => sum + microSiemensPerCm, 0) / 1000).toBeCloseTo(
      conductivity(ions),
      12,
    );
  });
});
