import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { adviceShape } from '../../src/report/advice-shapes.js';
import { assessShape, blendMadeShape } from '../../src/report/schemas.js';
import { shellWords } from '../golden/golden.js';
import { folder, velamen } from './world.js';

const root = join(fileURLToPath(new URL('.', import.meta.url)), '..', '..');
const CATTLEYAS = ['--bench', 'examples/what-the-shelf-reaches', '--feed', 'cattleyas'];

describe('advice on the command line', () => {
  it('prints its own object, and a recipe still prints the old one', async () => {
    const advice = await velamen(['assess', '105 ppm N', ...CATTLEYAS, '--json'], root);
    expect(adviceShape.parse(JSON.parse(advice.stdout))).toMatchObject({ status: 'within', certainty: 'exact' });
    expect(advice.exit).toBe(0);
    const recipe = await velamen(['assess', '1 g potassium-nitrate in 4 L', ...CATTLEYAS, '--json'], root);
    expect(assessShape.parse(JSON.parse(recipe.stdout)).schema).toBe('velamen.assess/1');
  });

  it('names blend commands that mix what it says', async () => {
    const asked = ['assess', '400-900 µS', ...CATTLEYAS];
    const [text, json] = await Promise.all([velamen(asked, root), velamen([...asked, '--json'], root)]);
    const { own } = adviceShape.parse(JSON.parse(json.stdout));
    const lines = [
      ...text.stdout.replace(/\n {4}/g, ' ').matchAll(/^ {2}- (velamen blend .*?)(?: {1,3}\(start here\))?$/gm),
    ].map((m) => m[1]!);
    expect(lines).toHaveLength(2);
    for (const [i, end] of [own!.matches[0]!.low, own!.matches[0]!.high].entries()) {
      const ran = await velamen([...shellWords(lines[i]!).slice(1), '--json'], root);
      const mixed = blendMadeShape.parse(JSON.parse(ran.stdout));
      expect(mixed.items.map(({ measures: _, ...item }) => item)).toEqual(end.items);
      expect(mixed.ec.mSPerCm).toBeCloseTo(end.ec, 9);
    }
  });

  it('exits with 3 where the own feed may not be that strong', async () => {
    const ran = await velamen(['assess', '400 ppm N', ...CATTLEYAS], root);
    expect(ran.exit).toBe(3);
    expect(ran.stdout).toContain('Held back');
  });

  it('translates without a bench, and misses no water for it', async () => {
    const ran = await velamen(['assess', '1/4 tsp per US gal of 14-4-17'], folder());
    expect(ran).toMatchObject({ exit: 0, stderr: '' });
    expect(ran.stdout).toContain('27.3–63.8');
  });

  it('keeps refusing a gallon of the grower’s own that is not named', async () => {
    const ran = await velamen(['assess', '1 g potassium-nitrate in 1 gal', ...CATTLEYAS], root);
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('US gal or imperial gal');
  });

  it('names a feed where the bench has several', async () => {
    const ran = await velamen(['assess', '125 ppm N', ...CATTLEYAS.slice(0, 2)], root);
    expect(ran.exit).toBe(0);
    expect(ran.stderr).toContain('Name one with --feed');
  });

  it('above the water: the own water’s reading is put on top', async () => {
    const { stdout } = await velamen(['assess', '0.4 mS/cm above the water', ...CATTLEYAS, '--json'], root);
    const { own, readings } = adviceShape.parse(JSON.parse(stdout));
    expect(readings[0]).toMatchObject({ aboveWater: true, wanted: { high: 0.4 } });
    const { low } = own!.matches[0]!;
    expect(low.wanted).toBeCloseTo(0.4 + own!.waterEc, 12);
    expect(low.limitedBy).toBeNull();
    // the steps of scale and syringe jump over the wish: no printable strength beside it comes nearer
    const off = (ec: number): number => Math.abs(ec / low.wanted - 1);
    const beside = await Promise.all(
      [-0.1, 0.1].map(async (more) => {
        const strength = `${(low.percent + more).toFixed(1)} %`;
        const ran = await velamen(['blend', ...CATTLEYAS, '--strength', strength, '--json'], root);
        return blendMadeShape.parse(JSON.parse(ran.stdout)).ec.mSPerCm;
      }),
    );
    for (const ec of beside) expect(off(ec)).toBeGreaterThanOrEqual(off(low.ec) - 1e-9);
  });

  it('a ceiling: from the feed as it is now to the strongest that keeps it', async () => {
    const { stdout, exit } = await velamen(['assess', 'max EC 0.9', ...CATTLEYAS, '--json'], root);
    const { own, status, certainty } = adviceShape.parse(JSON.parse(stdout));
    expect({ exit, status, certainty }).toEqual({ exit: 0, status: 'within', certainty: 'range' });
    const { low, high } = own!.matches[0]!;
    expect(low.strength).toBe('80 %');
    expect(high.ec).toBeLessThanOrEqual(0.9 * 1.005);
    expect(high.percent).toBeGreaterThan(80);
    const tight = await velamen(['assess', 'max EC 0.2', ...CATTLEYAS, '--json'], root);
    for (const end of Object.values(adviceShape.parse(JSON.parse(tight.stdout)).own!.matches[0]!))
      expect(end.ec).toBeLessThanOrEqual(0.2 * 1.005);
  });

  it('tells every mistake at once', async () => {
    const ran = await velamen(
      ['assess', '125 pmp ppm', '--bench', 'examples/what-the-shelf-reaches', '--feed', 'catleyas'],
      root,
    );
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('catleyas');
    expect(ran.stderr).toContain('pmp');
  });
});
