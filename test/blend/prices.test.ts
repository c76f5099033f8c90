import { describe, expect, it } from 'vitest';
import { highs, type LinearProgram, solve } from '../../solver/index.js';
import { blend } from '../../src/blend/blend.js';
import type { LimitPrice, Prices } from '../../src/feed/results.js';
import { pricesOf } from '../../src/blend/prices.js';
import { productColumn } from '../../src/feed/terms.js';
import { powder, request } from '../feed/fixtures.js';
import { benches } from '../feed/random-benches.js';
import { made } from '../feed/answers.js';
import { limitSays } from '../../src/report/says/limits.js';
import { limitPriceSays, unusedPriceSays } from '../../src/report/says/prices.js';
import { firstOf, programOf } from '../feed/program.js';

const ammonium = powder('ammonium', { 'NH4-N': 20 }, { price: 1, pack: 500 });
const nitrate = powder('nitrate', { 'NO3-N': 10 }, { price: 4, pack: 1000 });
const rule = {
  kind: 'linear' as const,
  text: 'NH4 <= 0.25 * N',
  terms: { 'NH4-N': 1, N: -0.25 },
  upper: 0,
  from: { owner: 'you' as const },
};

describe('what it costs to insist', () => {
  it('on limits, by hand', async () => {
    // N ≥ 100 with at most 25 % ammonium: 25 mg from ammonium (0.125 g at 0.002), 75 mg from nitrate (0.75 g at 0.004): 0.00325.
    // A mg of N more costs 0.0000325; without the rule all from ammonium: 0.001, which saves 69.23 %; without the floor all is saved.
    const result = made(await blend(request([ammonium, nitrate], { N: { min: 100, max: 150 } }, { rules: [rule] })));
    const { limits, cost } = result.prices!;
    expect(limits.map((l) => [limitSays(l.limit), l.lifted!.saves])).toEqual([
      ['N ≥ 100 mg/L', expect.closeTo(1, 9)],
      ['NH4 <= 0.25 * N', expect.closeTo(0.00225 / 0.00325, 9)],
    ]);
    expect(limits[0]).toMatchObject({ end: 'least', bound: 100, limit: { kind: 'nutrient' } });
    expect(limits[0]!.right).toEqual({ pricePerUnit: expect.closeTo(0.0000325, 12), limit: expect.closeTo(150, 6) });
    expect(limits[0]!.left).toEqual({ pricePerUnit: expect.closeTo(0.0000325, 12), limit: expect.closeTo(0, 6) });
    // a mg of room turns a mg of N from nitrate (0.00004) into ammonium (0.00001), as far as the other 75 mg
    expect(limits[1]!.right).toEqual({ pricePerUnit: expect.closeTo(-0.00003, 12), limit: expect.closeTo(75, 6) });
    expect(limitPriceSays(limits[0]!, cost, 'EUR')).toContain('each mg/L costs 0.0000325 EUR/L, from 0 to 150');
    expect(limitPriceSays(limits[1]!, cost, 'EUR')).toContain('lifting it saves 69.2 %');
  });

  it('on products, by hand', async () => {
    // per mg of N ammonium costs 0.00001, nitrate 0.00004: ammonium stays up to nitrate's price per mg, 0.008 EUR/g, 4 EUR a pack of 500 g;
    // nitrate stays from ammonium's, 0.001 EUR/g, upwards
    const other = powder('other', { 'NO3-N': 20 }, { price: 9, pack: 1000 });
    const result = made(await blend(request([ammonium, nitrate, other], { N: { min: 100 } }, { rules: [rule] })));
    const { used, unused } = result.prices!;
    expect(used.map((l) => [l.id, l.lowest, l.highest, l.highestPerPack])).toEqual([
      ['ammonium', 0, expect.closeTo(0.008, 9), expect.closeTo(4, 6)],
      ['nitrate', expect.closeTo(0.001, 9), expect.closeTo(0.0045, 9), expect.closeTo(4.5, 6)],
    ]);
    // the other nitrate gives twice the nitrogen: it comes in below twice the price, 8 EUR a pack
    expect(unused).toMatchObject([
      { id: 'other', lowest: expect.closeTo(0.008, 9), lowestPerPack: expect.closeTo(8, 6) },
    ]);
    expect(unusedPriceSays(unused[0]!, 'EUR')).toBe('would come in below 8 EUR a pack of 1000 g (now 9 EUR)');
  });

  it('gives both one-sided prices where the answer is degenerate', async () => {
    // the stock of the cheap one is used up exactly at N = 100: a mg less saves 0.00001, a mg more costs 0.00004
    const few = ammonium.with({ onHand: 2 });
    const result = made(await blend(request([few, nitrate], { N: { min: 100 } })));
    const [floor] = result.prices!.limits.filter((l) => l.limit.kind === 'nutrient');
    expect(floor!.left.pricePerUnit).toBeCloseTo(0.00001, 12);
    expect(floor!.right.pricePerUnit).toBeCloseTo(0.00004, 12);
    const stock = result.prices!.limits.find((l) => l.limit.kind === 'stock')!;
    // more of it is worth nothing, less of it must be replaced by nitrate
    expect(stock).toMatchObject({ limit: { unit: 'g' }, right: { pricePerUnit: 0 }, lifted: { saves: 0 } });
    expect(stock.left.pricePerUnit).toBeCloseTo(0.002 - 0.008, 9);
  });

  it('is left out where money is not what is counted, or the choice is limited', async () => {
    const bare = [ammonium, nitrate].map((p) => p.with({ price: undefined, pack: undefined }));
    expect(made(await blend(request(bare, { N: { min: 100 } }))).prices).toBeUndefined();
    expect(made(await blend(request([ammonium], { N: { min: 100 } }, { atMost: 1 }))).prices).toBeUndefined();
    expect(made(await blend(request([ammonium], { N: { min: 100 } }), { prices: false })).prices).toBeUndefined();
  });
});

describe('50 random benches, re-solved at both ends of every range', () => {
  it('limits', async () => {
    let ends = 0;
    let split = 0;
    for (const { seed, request: made } of await benches(50, true, 52_000)) {
      const { program, limited } = programOf(made, { ceilingsAsRows: true });
      const answer = await solve(program);
      if (answer.verdict !== 'optimal') throw new Error(`${seed}: ${answer.verdict}`);
      const prices = await pricesOf(made, firstOf(made), answer);
      const second = await solve(program, { engines: [highs] });
      for (const line of prices.limits) {
        const { row } = limited.find(({ limit }) => JSON.stringify(limit) === JSON.stringify(line.limit))!;
        const end = line.end === 'least' ? 'lower' : 'upper';
        const costAt = (b: number) =>
          cost({ ...program, rows: program.rows.map((r) => (r === row ? { ...r, [end]: b } : r)) });
        const here = `${seed} ${limitSays(line.limit)}`;
        // the other engine's multiplier lies between the two prices
        if (second.verdict === 'optimal') between(second.y[row.id]!, line, answer.objective, here);
        ends += await follows(line, answer.objective, costAt, here);
        if (line.left.pricePerUnit !== line.right.pricePerUnit) split += 1;
        const lifted = await cost({ ...program, rows: program.rows.filter((r) => r !== row) });
        expect(Math.abs(lifted! - line.lifted!.costPerLitre), here).toBeLessThanOrEqual(2e-6 * answer.objective);
      }
    }
    expect(ends).toBeGreaterThan(200);
    // degenerate ones are among them
    expect(split).toBeGreaterThan(0);
  });

  it('products', async () => {
    let ends = 0;
    for (const { seed, request: made } of await benches(50, true, 63_000)) {
      const { program } = programOf(made, { ceilingsAsRows: true });
      const answer = await solve(program);
      if (answer.verdict !== 'optimal') throw new Error(`${seed}: ${answer.verdict}`);
      const prices = await pricesOf(made, firstOf(made), answer);
      for (const line of [...prices.used, ...prices.unused]) {
        const column = productColumn(made.shelf.findIndex((p) => p.id === line.id));
        const amount = answer.x[column]!;
        for (const [end, sign] of endsOf(line, prices)) {
          const at = (price: number): LinearProgram => ({
            ...program,
            columns: program.columns.map((c) => (c.id === column ? { ...c, cost: price } : c)),
          });
          const kept = (price: number): number => answer.objective + (price - line.price) * amount;
          const best = await cost(at(end));
          // at the end the old blend is still a cheapest one
          expect(Math.abs(best! - kept(end)), `${seed} ${line.id}`).toBeLessThanOrEqual(
            3e-6 * Math.max(answer.objective, kept(end)),
          );
          // well beyond it is not: a tenth of the price more, or less
          const beyond = end * (1 + 0.1 * sign);
          const better = await cost(at(beyond));
          expect(better!, `${seed} ${line.id} beyond`).toBeLessThan(kept(beyond));
          ends += 1;
        }
      }
    }
    expect(ends).toBeGreaterThan(100);
  });
});

async function cost(program: LinearProgram): Promise<number | null> {
  const answer = await solve(program);
  return answer.verdict === 'optimal' ? answer.objective : null;
}

function between(y: number, line: LimitPrice, found: number, here: string): void {
  // a multiplier is good to the certificate's part of the whole cost, spread over the bound
  const slack = (1e-5 * found) / Math.max(Math.abs(line.bound), 1e-3);
  if (line.left.pricePerUnit !== null) expect(line.left.pricePerUnit, here).toBeLessThanOrEqual(y + slack);
  if (line.right.pricePerUnit !== null) expect(line.right.pricePerUnit, here).toBeGreaterThanOrEqual(y - slack);
}

/** The cost at the limit of each side is what the price says, and beyond it more than that, or there is no mix. */
async function follows(
  line: LimitPrice,
  found: number,
  costAt: (b: number) => Promise<number | null>,
  here: string,
): Promise<number> {
  let checked = 0;
  for (const [side, sign] of [
    [line.left, -1],
    [line.right, 1],
  ] as const) {
    if (side.pricePerUnit === null) continue;
    const limit = side.limit ?? line.bound + sign * Math.max(1, Math.abs(line.bound));
    const predicted = (b: number): number => found + side.pricePerUnit! * (b - line.bound);
    const slack = 3e-6 * Math.max(found, Math.abs(predicted(limit)));
    // a millionth inside, where rounding leaves no sliver of a mix exactly at the end
    const inside = limit - 1e-6 * (limit - line.bound);
    const there = (await costAt(limit)) ?? (await costAt(inside));
    expect(Math.abs(there! - predicted(limit)), `${here} at ${limit}`).toBeLessThanOrEqual(slack);
    checked += 1;
    if (side.limit === null) continue;
    const beyond = limit + 0.2 * sign * Math.max(Math.abs(limit - line.bound), 0.01 * Math.abs(line.bound));
    const past = await costAt(beyond);
    if (past !== null) expect(past, `${here} beyond`).toBeGreaterThan(predicted(beyond) - slack);
  }
  return checked;
}

/** The ends of a product's range that are neither open nor at no price at all. */
function endsOf(line: Prices['used'][number], prices: Prices): [number, 1 | -1][] {
  const ends: [number, 1 | -1][] = [];
  if (line.lowest !== null && line.lowest > 0) ends.push([line.lowest, -1]);
  if (prices.used.includes(line) && line.highest !== null) ends.push([line.highest, 1]);
  return ends;
}
