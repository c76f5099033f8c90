import { describe, expect, it } from 'vitest';
import { concentrateFeed } from '../../src/desk/concentrate.js';
import { concentrateSheet } from '../../src/report/concentrate.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from '../desk/benches.js';

const { shelf } = exampleFiles('spoons-alone');

async function stock(syringe: string, weekly: string) {
  const text = `name: any
water: { use: rain }
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp]${syringe === '' ? '' : `, syringe: ${syringe}`} }
feeds:
  moths: { plants: moth orchids, medium: bark, phase: growth, strength: 75 %, batch: 2 US gal, weekly: ${weekly} }
`;
  const { results } = await concentrateFeed({ bench: { name: 'bench.yaml', text }, shelf: shelf! }, {});
  const [result] = results;
  return {
    ratio: result!.ratio,
    says: renderText(concentrateSheet(result!), { columns: 400, colour: false, full: false }),
  };
}

describe('the strength of a stock that nobody asks for', () => {
  it('is one of which a can takes few fills of the syringe, where a jug of it is used up fresh', async () => {
    // 7.57 L at 1:100 take 75.7 mL, which are 8 fills of 10 mL; at 1:200 they are 37.9 mL, which are 4
    const { ratio, says } = await stock('10 mL', '30 L');
    expect(ratio).toBe(200);
    expect(says).toContain('37.9 mL for 2 US gal (7.57 L), 4 fills of the 10 mL syringe');
    // 200 L at 8 L a week stand for 25 weeks
    expect((await stock('10 mL', '8 L')).ratio).toBe(100);
  }, 60_000);

  it('is the usual one without a syringe; a larger measure comes first where the syringe would be filled many times', async () => {
    expect(await stock('', '8 L')).toMatchObject({ ratio: 100 });
    const { ratio, says } = await stock('3 mL', '8 L');
    expect(ratio).toBe(100);
    expect(says).toContain(
      'A larger measure first: 75.7 mL a can would be 26 fills of the 3 mL syringe. A measuring cup',
    );
  }, 60_000);
});
