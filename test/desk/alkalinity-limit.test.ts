import { describe, expect, it } from 'vitest';
import type { GivenResult } from '../../src/blend/given.js';
import { reach } from '../../src/blend/reach.js';
import { CAN_LIMITS } from '../../src/can/compiled-limits.js';
import { assessRecipe } from '../../src/desk/assess.js';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { openBench } from '../../src/desk/open-bench.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { reachSheet } from '../../src/report/reach.js';
import { reportOf } from '../../src/report/report-of.js';
import { renderText } from '../../src/report/text.js';
import { jsonOf } from '../../src/report/json-of.js';

// shelf and waters are invented; salts by their formulas
const SHELF = `id,name,form,formula,Fe,Mn,Zn,Cu,B,Mo,derived_from,pack,price
lime-nitrate,Calcium nitrate,powder,Ca(NO3)2·4H2O,,,,,,,,1 kg,5
saltpetre,Potassium nitrate,powder,KNO3,,,,,,,,1 kg,5
mono,Monopotassium phosphate,powder,KH2PO4,,,,,,,,1 kg,6
epsom,Epsom salt,powder,MgSO4·7H2O,,,,,,,,1 kg,3
ammonium,Ammonium sulfate,powder,(NH4)2SO4,,,,,,,,1 kg,3
traces,Traces,powder,,6,2.4,0.9,0.3,0.9,0.05,iron EDDHA; manganese EDTA; zinc EDTA; copper EDTA; boric acid; sodium molybdate,100 g,9
`;
const HARD = '{ name: hard, Ca: 42, Mg: 9, Na: 10, Cl: 12, S: 8, alkalinity: 140, price: 0 }';
const RAIN = '{ name: rain, alkalinity: 3, price: 0.05 }';
const bench = (water: string, medium = 'bark'): BenchFiles => ({
  bench: {
    name: 'bench.yaml',
    text: `name: Any\ncurrency: EUR\nwater: ${water}\nkit: { scale: 0.01 g }\nfeeds:\n  orchids: { plants: cattleya, medium: ${medium}, phase: growth, strength: 60 %, batch: 10 L }\n`,
  },
  shelf: { name: 'shelf.csv', text: SHELF },
});
async function given(water: string, medium?: string) {
  const { met, results } = await blendFeeds(bench(water, medium), {});
  const [result] = results as GivenResult[];
  if (result?.status !== 'made') throw new Error(result?.status);
  return {
    met,
    ...result,
    text: renderText(reportOf('blend', result), { columns: 400, colour: false, full: true } as never),
  };
}

describe('alkalinity is a limit of the programme', () => {
  it('the same in the rules of each medium as in the limits that cautions go by', () => {
    const { rules } = shippedCatalog();
    const ofRules = rules.filter(({ rule }) => rule.startsWith('alkalinity')).map(({ medium, rule }) => [medium, rule]);
    const ofCans = CAN_LIMITS.filter(({ quantity }) => quantity === 'alkalinity').map(({ of, most }) => [
      of,
      `alkalinity <= ${most}`,
    ]);
    expect(new Map(ofRules as [string, string][])).toEqual(new Map(ofCans as [string, string][]));
    expect(ofRules).toHaveLength(ofCans.length);
  });

  it('waters are blended so that it is kept, though the softer one costs', async () => {
    const { alkalinity, waters, rules } = await given(`[${HARD}, ${RAIN}]`);
    expect(alkalinity!.mgCaCO3PerLitre).toBeLessThanOrEqual(100 * (1 + 1e-6));
    expect(waters.find(({ name }) => name === 'rain')!.share).toBeGreaterThan(0.25);
    expect(rules.find(({ rule }) => rule.text === 'alkalinity <= 100')!.holds).toBe(true);
  });

  it('in hard water alone there is a feed all the same, as near as before; it is judged, and told what would mend it', async () => {
    const made = await given(HARD);
    const line = made.rules.find(({ rule }) => rule.text === 'alkalinity <= 100')!;
    expect(line.holds).toBe(false);
    // the row is the water's alkalinity and that of the products, as the can has it
    expect(line.value).toBeCloseTo(made.alkalinity!.mgCaCO3PerLitre, 6);
    expect(made.given.custom.map(({ limit }) => limit.kind === 'rule' && limit.rule.text)).toContain(
      'alkalinity <= 100',
    );
    expect(made.text).toMatch(/alkalinity <= 100 is not kept \(1[34]\d mg\/L as CaCO3\)/);
    expect(made.text).toMatch(/pure water/);
    // nothing else gives way with it: as near as if the same water brought less
    const borne = await given(HARD.replace('140', '95'));
    expect(made.given.near.asked.factor / borne.given.near.asked.factor).toBeLessThan(1.05);
    expect(made.given.custom.length - borne.given.custom.length).toBe(1);
    const { result } = await assessRecipe(bench(HARD), { recipe: '5 g saltpetre in 10 L' });
    expect(
      'misses' in result && result.misses.some(({ limit }) => limit.kind === 'rule' && limit.rule.terms.alkalinity),
    ).toBe(true);
  });

  it('is among the reasons of reach, or told to be out of reach in every water', async () => {
    const { requests } = await openBench(bench(HARD), {});
    const hopeless = await reach(requests[0]!, 'shelf');
    expect(hopeless.alkaline).toEqual({ limit: 100, least: 140 });
    expect(JSON.stringify(jsonOf('reach', hopeless))).toContain('Alkalinity is out of reach');
    expect(reachSheet(hopeless, 'hard').title).not.toMatch(/not all limits can be kept/);
    // calcium stands in the hard water alone: only its alkalinity keeps it from its aim
    const files = bench(`[${HARD}, ${RAIN}]`);
    const soft = (await openBench(files, { without: ['lime-nitrate'] })).requests[0]!;
    const told = await reach(soft, 'shelf');
    expect(told.alkaline).toBeNull();
    const calcium = told.elements.find(({ element }) => element === 'Ca')!;
    expect(calcium.aimReachable).toBe(false);
    expect(calcium.decides).toMatchObject({
      kind: 'limit',
      limit: { kind: 'rule', rule: { text: 'alkalinity <= 100' } },
    });
  });
});
