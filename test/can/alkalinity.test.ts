import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { ACIDS, CAN_LIMITS } from '../../src/can/compiled-limits.js';
import { canLimitsModule } from '../../src/catalog/compile.js';
import { readCanLimits } from '../../src/catalog/can-limits.js';
import { chelateOf } from '../../src/can/iron.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { assess } from '../../src/advice/assess.js';
import { dosedByPen } from '../../src/advice/dosed-by-pen.js';
import { parseRecipe } from '../../src/advice/recipe.js';
import { closeRecipe } from '../../src/desk/close-labels.js';
import { closeProduct } from '../../src/label/close.js';
import type { Water } from '../../src/label/product.js';
import { MEDIA, type Medium } from '../../src/programme/index.js';
import { cautionSays } from '../../src/report/says/cautions.js';
import { mgCaCO3PerLitre, mgPerLitre } from '../../src/units/index.js';
import { unwrap } from '../../src/problem.js';
import { request, row } from '../feed/fixtures.js';

const catalog = shippedCatalog();
const file = (name: string) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');

/** A hard water as lime makes it: calcium and bicarbonate alike; invented. */
const hard = (alkalinity: number, pH = 7.6): Water => ({
  id: 'hard',
  name: 'Hard water',
  mgPerLitre: { Ca: mgPerLitre((alkalinity / 50.04) * 20.04) },
  alkalinity: mgCaCO3PerLitre(alkalinity),
  pH,
  pricePerLitre: 0,
  source: 'invented',
  evidence: 'invented',
});
const pure = catalog.waters.find(({ id }) => id === 'pure')!;

async function can(recipe: string, waters: Water[], { medium = 'bark', bands = {}, celsius = 25 }: Asked = {}) {
  const closed = await closeRecipe(unwrap(parseRecipe(`${recipe} in 1 L`, [...catalog.salts, ...catalog.products])));
  const read = unwrap(dosedByPen(closed, waters));
  const shelf = [...new Set(read.lines.map((line) => line.product))];
  const asked = { ...request(shelf, bands), waters, temperatureC: celsius };
  const programme = { ...asked.programme, medium };
  return assess(read, { ...asked, programme, header: { ...asked.header, medium } });
}
interface Asked {
  medium?: Medium;
  bands?: Parameters<typeof request>[1];
  celsius?: number;
}
const saysOf = ({ cautions }: Awaited<ReturnType<typeof can>>): string => cautions.map(cautionSays).join('\n');

describe('the limits of a can', () => {
  it('are what the CSV file says, each with its source and grade; where this fails, `npm run catalog` writes them again', () => {
    const limits = unwrap(readCanLimits(file('catalog/can-limits.csv'), 'catalog/can-limits.csv'));
    expect(file('src/can/compiled-limits.ts') === canLimitsModule(limits, catalog.salts)).toBe(true);
    for (const { source, evidence } of limits) expect(source.length > 10 && evidence.length > 4).toBe(true);
  });

  it('say every fault of a row at once', () => {
    const read = readCanLimits('quantity,of,most\nalkali,moss,\nchelate,,8', 'x.csv');
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.problems.length).toBeGreaterThanOrEqual(3);
  });

  it('bear the least alkalinity in moss', () => {
    const most = new Map(CAN_LIMITS.filter((l) => l.quantity === 'alkalinity').map((l) => [l.of, l.most]));
    expect([...most.keys()].sort()).toEqual([...MEDIA].sort());
    for (const medium of MEDIA.filter((m) => m !== 'sphagnum'))
      expect(most.get('sphagnum')!).toBeLessThan(most.get(medium)!);
    // University of Massachusetts Amherst Extension, Water quality: pH and alkalinity (excerpt): 0 to 100 acceptable, 30 to 60 best
    expect(CAN_LIMITS.find((l) => l.of === 'peat')).toMatchObject({ aim: 60, most: 100 });
  });
});

describe('alkalinity over hardness 0 to 300 mg/L CaCO3', () => {
  const sweep = MEDIA.flatMap((medium) => [0, 15, 30, 60, 90, 120, 180, 240, 300].map((h) => [medium, h] as const));
  it.each(sweep)(
    '%s at %s: judged, and brought inside by the acid or the pure water told',
    async (medium, hardness) => {
      const recipe = '0.4 g potassium-nitrate + 0.02 g dipotassium-phosphate';
      const made = await can(recipe, [hard(hardness)], { medium });
      // by hand: the water's, and 1 meq for each mmol of K2HPO4 (174.174 g/mol)
      const byHand = hardness + (50.04 * 1000 * 0.02) / 174.174;
      const line = made.alkalinity!;
      expect(line.mgCaCO3PerLitre).toBeCloseTo(byHand, 1);
      expect(line.over !== null).toBe(byHand > line.most);
      expect(saysOf(made).includes('Alkalinity of the can')).toBe(byHand > line.most);
      if (line.over === null) return;
      for (const acid of line.over.acids) {
        const dosed = await can(`${recipe} + ${acid.perLitre.toFixed(6)} mL ${acid.id}`, [hard(hardness)], { medium });
        expect(dosed.alkalinity!.mgCaCO3PerLitre).toBeCloseTo(line.aim, 1);
        expect(dosed.alkalinity!.over).toBeNull();
        expect(dosed.ph.asMixed).toBeLessThan(made.ph.asMixed);
        expect(acid.beyond !== null).toBe(acid.perLitre > ACIDS.find(({ id }) => id === acid.id)!.most!);
      }
      const softer = await can(recipe, [hard(hardness * (1 - line.over.pureShare!))], { medium });
      expect(softer.alkalinity!.mgCaCO3PerLitre).toBeCloseTo(line.aim, 1);
      expect(saysOf(made)).toMatch(/goggles and gloves, acid into the water first/);
    },
  );

  it('counts acids of the mix, and says where products alone bring too much', async () => {
    const acid = await can('0.4 g potassium-nitrate + 0.2 mL nitric-acid', [hard(180)], { medium: 'peat' });
    expect(acid.alkalinity!.over).toBeNull();
    const alkali = await can('0.3 g potassium-carbonate', [pure], { medium: 'peat' });
    expect(alkali.alkalinity!.over!.pureShare).toBeNull();
    expect(saysOf(alkali)).toMatch(/leave the alkali out/);
  });
});

describe('free ammonia', () => {
  it.each([
    ['0.05 g potassium-metasilicate + 0.3 g ammonium-sulfate', true],
    ['0.2 mL potassium-silicate + 0.2 g ammonium-sulfate', true],
    ['0.1 g potassium-carbonate + 0.2 g ammonium-nitrate', true],
    ['1 g diammonium-phosphate', true],
    ['0.3 g ammonium-sulfate', false],
    ['0.05 g potassium-metasilicate + 0.3 g potassium-nitrate', false],
  ])('%s: %s', async (recipe, told) => {
    const made = await can(recipe, [pure]);
    const { mgPerLitre: nitrogen, pH, most } = made.ammonia;
    expect(saysOf(made).includes('Free ammonia')).toBe(told);
    expect(nitrogen > most).toBe(told);
    // pKa 9.25 at 25 °C (CRC Handbook, from memory), by hand: the share 1/(1 + 10^(pKa − pH)); 15 % for activities and ion pairs
    const ammonium = made.elements.find(({ element }) => element === 'NH4-N')?.mgPerLitre ?? 0;
    const byHand = ammonium / (1 + 10 ** (9.25 - pH));
    if (told) expect(Math.abs(nitrogen / byHand - 1)).toBeLessThan(0.15);
  });

  it('is more in a warm can at the same pH', async () => {
    // pKa of ammonium falls by some 0.031 per degree (CRC Handbook, from memory): 9.25 at 25 °C, 9.56 at 15 °C
    const share = async (celsius: number) => {
      const { ammonia } = await can('0.5 g diammonium-phosphate', [pure], { celsius });
      return ammonia.mgPerLitre * 10 ** -ammonia.pH;
    };
    expect(Math.log10((await share(25)) / (await share(15)))).toBeGreaterThan(0.25);
    expect(Math.log10((await share(25)) / (await share(15)))).toBeLessThan(0.37);
  });
});

describe('iron', () => {
  // Argo & Fisher as quoted on a training page: EDTA to pH 7.0, DTPA to 7.5, EDDHA to 9.0 or more
  it.each([
    ['iron-edta', 6.8, true],
    ['iron-edta', 7.2, false],
    ['iron-dtpa', 7.4, true],
    ['iron-dtpa', 7.7, false],
    ['iron-eddha', 7.9, true],
    ['iron-sulfate', 6.8, false],
  ])('%s at pH %s: held %s', async (id, pH, holds) => {
    const made = await can(`0.01 g ${id}`, [hard(180, pH)], { bands: { Fe: { min: 0.3 } } });
    expect(Math.abs(made.ph.asMixed - pH)).toBeLessThan(0.1);
    expect(made.iron!.held > 0).toBe(holds);
    expect(saysOf(made).includes('It is not held in')).toBe(!holds);
    // the least for iron is judged by what holds
    expect(
      'misses' in made && made.misses.some(({ limit }) => limit.kind === 'nutrient' && limit.nutrient === 'Fe'),
    ).toBe(!holds);
  });

  it.each([
    [['iron EDTA', 'manganese EDTA'], '', 'EDTA'],
    [['potassium nitrate', 'iron DTPA'], '', 'DTPA'],
    [['iron EDDHA', 'iron EDTA'], '', 'EDTA'],
    [['sodium ferric EDDHA'], '', 'EDDHA'],
    [['iron HEDTA'], '', 'HEDTA'],
    [['ferrous sulfate'], '', 'none'],
    [[], 'Iron 6 % EDDHA', 'EDDHA'],
    [[], 'Trace mix', null],
  ])('a label that names %j %s carries %s', async (derivedFrom, name, agent) => {
    const product = await closeProduct(row('x', { Fe: 6 }, { derivedFrom, name }));
    expect(chelateOf(product)).toBe(agent);
  });
});
