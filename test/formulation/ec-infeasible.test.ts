import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import { leastEc } from '../../src/formulation/ec-cap.js';
import { blend } from '../../src/blend/blend.js';
import { reach } from '../../src/blend/reach.js';
import { powder, request } from '../feed/fixtures.js';
import { proofSentence } from '../../src/report/says/proof.js';
import { cannot, made } from '../feed/answers.js';
import { withEcCap } from '../../src/feed/request.js';
import { limitSays } from '../../src/report/says/limits.js';

const catalog = shippedCatalog();
const salts = await closeShelf(catalog.salts);
const salt = (id: string) => salts.find((s) => s.id === id)!;
const shelf = [salt('potassium-nitrate'), salt('potassium-chloride'), salt('urea')];

describe('an EC cap that bites', () => {
  it('is only called impossible where the mix of least EC is over it too', async () => {
    const bands = { N: { min: 50 }, K: { min: 80, max: 200 } };
    const free = request(shelf, bands);
    const capped = request(shelf, bands, { maxEc: 1 });
    // by hand: 80 mg/L K is 2.046 mmol/L; as KNO3 at 2 mmol/L it reads some 0.28 mS/cm (CRC: 141 to 145 S cm²/mol), N from urea costs nothing
    const least = await leastEc(capped);
    expect(least!.ec).toBeGreaterThan(0.28);
    expect(least!.ec).toBeLessThan(0.3);

    const possible = made(await blend(withEcCap(free, least!.ec * 1.001), { prices: false }));
    expect(possible.proof.verdict).toBe('optimal');
    expect(possible.ec.mSPerCm).toBeLessThanOrEqual(least!.ec * 1.001 * (1 + 1e-6));

    const impossible = cannot(await blend(withEcCap(free, least!.ec * 0.99), { prices: false }));
    expect(proofSentence(impossible.proof)).toMatch(
      /EC row linearised at .* the least found with every other limit kept/,
    );
    expect(impossible.conflict.map((line) => limitSays(line.limit)).join()).toMatch(/EC/);
  });

  it('says nothing about a linearisation where it does not press', async () => {
    const result = await blend(request(shelf, { K: { min: 80, max: 200 } }, { maxEc: 2 }), { prices: false });
    expect(proofSentence(result.proof)).not.toMatch(/linearised/);
  });

  it('bounds reach by the full model', async () => {
    const result = await reach(request([salt('potassium-nitrate')], { K: { min: 10 } }, { maxEc: 0.6 }), 'test');
    const most = result.elements[0]!.whole!.highest!;
    const asked = request([salt('potassium-nitrate')], { K: { min: most * 0.9999 } }, { maxEc: 0.6 });
    const mix = made(await blend(asked, { prices: false }));
    expect(mix.proof.verdict).toBe('optimal');
    // the same cap and model: what reach calls the end stands at the cap within the linearisation's 0.1 %
    expect(Math.abs(mix.ec.mSPerCm / 0.6 - 1)).toBeLessThan(2e-3);
    expect(result.elements[0]!.limitedBy!.map(limitSays).join()).toMatch(/EC/);
  });

  it('counts a product of unknown ions as nothing, with urea and organics', async () => {
    const asked = request([powder('u', { 'urea-N': 46 })], { N: { min: 100 } }, { maxEc: 0.1 });
    const { ec } = made(await blend(asked, { prices: false }));
    expect(ec.mSPerCm).toBeLessThan(0.01);
  });
});
