import { beforeAll, describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { resolveProgramme } from '../../src/programme/index.js';
import { TISSUE_PER_NITROGEN } from '../reference/tissue.js';
import { CASES, filesOf } from './shelves.js';
import { type Line, lineOf, tableText } from './table.js';

const catalog = shippedCatalog();
const PER_NITROGEN = Object.entries(TISSUE_PER_NITROGEN) as [keyof typeof TISSUE_PER_NITROGEN, number][];
const KEPT = 1 + 1e-6; // rounding of doubles

describe('fifteen feeds on three invented shelves', () => {
  const lines: Line[] = [];
  beforeAll(async () => {
    for (const one of CASES) lines.push(await lineOf(one));
  });

  it('keep every rule and every end of a band; what is only aimed at may be missed', () => {
    for (const { of, mix } of lines) {
      const name = `${of.plants}, ${of.medium}, ${of.phase}`;
      for (const { rule, holds } of mix.rules) expect(holds || rule.aimed === true, `${name}: ${rule.text}`).toBe(true);
      for (const { element, mgPerLitre, min, max } of mix.elements) {
        // what only convention asks for may give way to nitrogen, and is told
        if (min !== null && ['N', 'P', 'K', 'Ca', 'Mg'].includes(element))
          expect(mgPerLitre * KEPT, `${name}: ${element}`).toBeGreaterThanOrEqual(min);
        if (max !== null) expect(mgPerLitre, `${name}: ${element}`).toBeLessThanOrEqual(max * KEPT);
      }
      expect(mix.ec.mSPerCm, name).toBeLessThanOrEqual(mix.ec.cap!.bound);
      expect(mix.alkalinity!.over, name).toBe(null);
    }
  });

  it('have the forms and ratios that a nutritionist would sign', () => {
    for (const { of, shares, ratios } of lines) {
      const name = `${of.plants}, ${of.medium}, ${of.phase}`;
      const least = { sphagnum: 0.75, clay: 0.75, mounted: 0.7, coir: 0.6, peat: 0.6 }[of.medium] ?? 0.5;
      expect(shares.nitrate * KEPT, name).toBeGreaterThanOrEqual(of.phase === 'rest' ? Math.max(least, 0.6) : least);
      expect(shares.ammonium + shares.urea + shares.undeclared, name).toBeLessThanOrEqual(0.5 * KEPT);
      expect(ratios['K:Ca'], name).toBeLessThanOrEqual(4 * KEPT);
      expect(ratios['K:Mg'], name).toBeLessThanOrEqual(10 * KEPT);
      expect(ratios['Ca:Mg'] * KEPT, name).toBeGreaterThanOrEqual(2);
      expect(ratios['Ca:Mg'], name).toBeLessThanOrEqual(7 * KEPT);
    }
  });

  it('hold main elements at half of their proportion in tissue or more', () => {
    for (const { of, index } of lines)
      for (const element of ['P', 'K', 'Ca', 'Mg', 'S'])
        expect(index[element], `${of.plants}, ${of.medium}, ${of.phase}: ${element}`).toBeGreaterThan(0.5);
  });

  it('stand in a table for a reader, a line each', () => {
    expect(tableText(lines).match(/^[a-z-]+, [a-z]+, [a-z]+ .* \d+ %$/gm)).toHaveLength(15);
  });
});

describe('a nitrogen that is mostly urea', () => {
  const UREA = `id,name,form,formula,N,NO3-N,NH4-N,urea-N,P2O5,K2O,Fe,Mn,Zn,Cu,B,Mo,derived_from
rich,Urea powder,powder,,28,1.6,2.3,24.1,9,17,0.1,0.05,0.03,0.01,0.02,0.002,urea; monoammonium phosphate; potassium nitrate; iron EDTA; manganese EDTA; zinc EDTA; copper EDTA; boric acid; sodium molybdate
chloride,Calcium chloride,powder,CaCl2·2H2O,,,,,,,,,,,,,
potash,Potassium sulfate,powder,K2SO4,,,,,,,,,,,,,
epsom,Epsom salt,powder,MgSO4·7H2O,,,,,,,,,,,,,
`;

  it('feeds no cymbidium in bark, and the floor on nitrate is named in the conflict', async () => {
    const files = filesOf({ plants: 'cymbidium', medium: 'bark', phase: 'growth', shelf: 'plain salts' });
    const { met, results } = await blendFeeds({ ...files, shelf: { name: 'shelf.csv', text: UREA } }, { bare: true });
    expect(met).toBe(false);
    const [result] = results;
    if (result?.status !== 'cannot') throw new Error(result?.status);
    const named = result.conflict.map(({ limit }) => (limit.kind === 'rule' ? limit.rule.text : limit.kind));
    expect(named).toContain('NO3 >= 0.5 * N');
  });
});

describe('the programmes beside tissue', () => {
  const programmes = catalog.plants
    .filter(({ id }) => id !== 'carnivorous')
    .map(({ id, media }) => {
      const read = resolveProgramme(catalog, id, media.includes('bark') ? 'bark' : media[0]!, 'growth');
      if (!read.ok) throw new Error(id);
      return read.value;
    });

  it('aim at tissue’s proportions or above, but for trace elements of a narrow margin', () => {
    for (const { plants, bands } of programmes)
      for (const [element, ratio] of PER_NITROGEN) {
        const index = bands[element]!.aim! / bands.N!.aim! / ratio;
        // Epstein's B, Zn and Cu are those of general crops; too much of them harms, and bromeliads most
        const least = plants === 'bromeliad' && ['Zn', 'Cu', 'B'].includes(element) ? 0.2 : 0.75;
        expect(index, `${plants}: ${element}`).toBeGreaterThan(least);
      }
  });

  it('ask for no least under half of tissue’s proportion without a word', () => {
    for (const { plants, bands, rules } of programmes)
      for (const [element, ratio] of PER_NITROGEN) {
        const follows = rules.flatMap((rule) =>
          rule.kind === 'linear' && rule.lower === 0 && rule.terms[element] === 1 && (rule.terms.N ?? 0) < 0
            ? [-rule.terms.N!]
            : [],
        );
        const row =
          catalog.bands.find((band) => band.plants === plants && band.nutrient === element) ??
          catalog.bands.find((band) => band.plants === '*' && band.nutrient === element)!;
        // by the group's nitrogen before the factors, as the rows are written
        const nitrogen = row.perNitrogen
          ? 100
          : catalog.bands.find((b) => b.plants === plants && b.nutrient === 'N')!.aim!;
        const index = Math.max((row.min ?? 0) / nitrogen, ...follows) / ratio;
        if (index < 0.5)
          expect(row.notes, `${plants}: ${element} at ${index.toFixed(2)}`).toContain('under half of tissue');
        expect(bands[element]!.min, `${plants}: ${element}`).toBeGreaterThan(0);
      }
  });
});
