import { describe, expect, it } from 'vitest';
import { keepingOf } from '../../src/can/keeping.js';
import type { Part } from '../../src/can/part.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeLabels } from '../../src/desk/close-labels.js';
import { keepingInFull, keepingSays } from '../../src/report/says/keeping.js';

const { products, salts, waters } = shippedCatalog();
const rain = [{ water: waters.find(({ id }) => id === 'rain')!, share: 1 }];
const tap = [{ water: waters.find(({ id }) => id === 'median-tap')!, share: 1 }];

/** Products of the catalog (invented, or generic salts) by id, g or mL per litre; labels closed. */
async function parts(amounts: Record<string, number>): Promise<Part[]> {
  const meant = [...products, ...salts].filter(({ id }) => id in amounts);
  expect(meant.map(({ id }) => id).sort()).toEqual(Object.keys(amounts).sort());
  const closed = await closeLabels(meant);
  return closed.map((product) => ({ product, perLitre: amounts[product.id]! }));
}

describe('how long a can keeps', () => {
  it('a week in the dark of salts with a chelate, and the abstract that light destroys it stands behind', async () => {
    const keeping = keepingOf(await parts({ 'sample-base': 0.3, 'sample-calcium': 0.3 }), rain);
    expect(keeping).toMatchObject({ hours: 168, causes: [{ why: 'light', chelates: ['EDTA'] }] });
    expect(keepingSays(keeping)).toMatch(/^Last week’s jug: yes, if it stood closed, cool and dark/);
    expect(keepingInFull(keeping)[0]).toMatch(/Albano & Miller 2001 \(abstract read\).*from memory, unchecked\.$/);
  });

  it('a day with kelp, two days with urea, the soonest first', async () => {
    const urea = keepingOf(await parts({ 'sample-balanced': 0.3, 'sample-calcium': 0.3 }), rain);
    expect(urea).toMatchObject({ hours: 48, causes: [{ why: 'urea' }, { why: 'light' }] });
    const both = keepingOf(await parts({ 'sample-balanced': 0.3, 'sample-kelp': 0.5 }), rain);
    expect(both).toMatchObject({ hours: 24, causes: [{ why: 'organic matter' }, { why: 'urea' }, { why: 'light' }] });
    expect(keepingSays(both)).toMatch(/no\. Use it within 24 hours: .*\(common practice, no source\)\.$/);
  });

  it('what no label tells is taken as the worse: nitrogen without its forms as urea', async () => {
    const keeping = keepingOf(await parts({ 'sample-drops': 2 }), rain);
    expect(keeping.hours).toBeLessThanOrEqual(48);
    expect(keeping.causes.map(({ why }) => why)).toContain('unnamed nitrogen');
    expect(keepingInFull(keeping).join()).toContain('is unknown, so it is taken as urea');
  });

  it('what clouds, cold or warm, is told with its mineral and the temperature, and used at once', async () => {
    const strong = await parts({ 'calcium-nitrate': 4, 'monopotassium-phosphate': 2 });
    const keeping = keepingOf(strong, tap);
    expect(keeping).toMatchObject({
      hours: 0,
      causes: [{ why: 'clouds', verdict: 'will cloud' }, ...[expect.anything()]],
    });
    expect(keepingSays(keeping)).toMatch(
      /^Last week’s jug: no\. Use it at once: it clouds at (5|25) °C \(\w+, saturation index /,
    );
  });

  it('plain water does not go off', () => {
    expect(keepingSays(keepingOf([], rain))).toBe('Last week’s jug: yes. Plain water: nothing in it goes off.');
  });
});
