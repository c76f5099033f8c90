import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cautionsFor, hazardsIn } from '../../src/can/cautions.js';
import { codesOfSolution, hazardsOf, saleOf, statementOf } from '../../src/can/hazards.js';
import { compiledSafety } from '../../src/can/compiled-hazards.js';
import { readProducts } from '../../src/catalog/index.js';
import { allSalts } from '../../src/chemistry/salts.js';
import { closeLabels } from '../../src/desk/close-labels.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import { careJson } from '../../src/report/json/mix.js';
import { cautionSays } from '../../src/report/says/cautions.js';
import { clean } from '../catalog/told.js';

const salts = new Map((await closeLabels(shippedCatalog().salts)).map((salt) => [salt.id, salt]));
const of = (...ids: string[]): ClosedProduct[] => ids.map((id) => salts.get(id)!);
const own = async (rows: string): Promise<ClosedProduct[]> =>
  closeLabels(clean(readProducts(`id,name,form,N,NO3-N,NH4-N,K2O,Ca,B,Cl,derived_from\n${rows}`, 'shelf.csv')));

/** What safety data say of pure substances (sources by key in the file; the cautious one where they differ). */
const published = readFileSync(new URL('../reference/hazards.csv', import.meta.url), 'utf8')
  .split('\n')
  .flatMap((line) => {
    const cells = line.match(/("[^"]*"|[^,]*)(,|$)/g)?.map((cell) => cell.replace(/,$/, '').replace(/"/g, '')) ?? [];
    const [substance = '', formula = '', codes = ''] = cells;
    return /^(EU)?H\d{3}/.test(codes) ? [{ substance, formula: formula.replaceAll('.', '·'), codes }] : [];
  });

describe('hazards of substances', () => {
  it('are told of every substance that a label can name, and of every salt of the catalog', () => {
    const known = new Set(compiledSafety.hazards.map(({ formula }) => formula));
    expect(
      allSalts()
        .map(({ formula }) => formula)
        .filter((formula) => !known.has(formula)),
    ).toEqual([]);
    const silent = shippedCatalog().salts.filter((salt) => {
      const looked = salt.formula === undefined ? salt.derivedFrom : [salt.formula];
      return looked.some((name) => saleOf(name) === undefined);
    });
    expect(silent).toEqual([]);
  });

  it('hold every code that safety data give the pure substance, or a stricter one', () => {
    let compared = 0;
    for (const { substance, formula, codes } of published) {
      // solutions are mixtures; the octaborates and both borates share a row of the source
      if (/liquor|solution|liquid|dossier|and borates|octaborate/.test(substance)) continue;
      const row = compiledSafety.hazards.find((one) => one.formula === formula);
      if (row === undefined) continue;
      const held = row.codes.map(({ code }) => code);
      const covered = held.flatMap((code) => [code, ...(statementOf(code)?.covers ?? [])]);
      for (const code of codes.match(/(EU)?H\d{3}[A-Z]*/g) ?? []) {
        expect(covered, `${substance} ${code}`).toContain(code);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(45);
  });

  it.each([
    ['potassium-nitrate', ['H272', 'H302', 'H319', 'H402']],
    ['calcium-ammonium-nitrate', ['H318', 'H302']],
    ['ammonium-nitrate', ['H272', 'H371', 'H303', 'H315', 'H319']],
    ['boric-acid', ['H360FD']],
    ['borax', ['H360FD', 'H319']],
    ['copper-sulfate', ['H318', 'H302', 'H410']],
    ['zinc-sulfate', ['H318', 'H302', 'H410']],
    // 53 %: not yet an oxidiser, which starts at 65 %
    ['nitric-acid', ['EUH071', 'H290', 'H314', 'H331']],
    ['phosphoric-acid', ['H290', 'H314', 'H302']],
    ['magnesium-sulfate', []],
    ['urea', []],
  ])('of %s are %j, surely', (id, codes) => {
    expect(hazardsOf(salts.get(id)!)).toMatchObject({ codes, may: false });
  });

  it('restrict the sale of ammonium nitrate (EU 2019/1148, Annex I: above 45.7 %), and of no potassium nitrate', () => {
    expect(of('ammonium-nitrate', 'nitric-acid', 'potassium-nitrate').map((p) => hazardsOf(p).restricted)).toEqual([
      true,
      true,
      false,
    ]);
    expect(saleOf('potassium nitrate')).toEqual({ kind: 'reportable' });
  });
});

describe('hazards of products', () => {
  it('pass on from the salts that a label names, at their share, as what may be', async () => {
    const [retail, weak, strong] = await own(
      `retail,Retail,powder,12,12,0,39,,0.01,,potassium nitrate; potassium sulfate; boric acid
       weak,Weak,powder,0,0,0,,,0.05,,boric acid; kelp
       strong,Strong,powder,0,0,0,,,0.06,,boric acid; kelp`.replace(/\n +/g, '\n'),
    );
    // 12 % nitrate nitrogen is at most 87 % potassium nitrate; 0.01 % B is 0.06 % boric acid, below 0.3 %
    expect(hazardsOf(retail!)).toMatchObject({ codes: ['H272', 'H302', 'H319', 'H402'], may: true });
    expect(hazardsOf(weak!).codes).toEqual([]);
    expect(hazardsOf(strong!)).toMatchObject({ codes: ['H360FD'], may: true });
  });

  it('are taken of what could stand behind a label that names no salts', async () => {
    const [lime] = await own('lime,Lime,powder,15.5,14.4,1.1,,19,,,');
    expect(hazardsOf(lime!)).toMatchObject({ codes: ['H272', 'H318', 'H302'], may: true });
  });

  it('know a jar by its name alone', async () => {
    const [jar] = await own('jar,Boric acid,powder,0,0,0,,,17,,');
    expect(hazardsOf(jar!)).toMatchObject({ codes: ['H360FD'], may: false });
  });

  it('thin out in a solution by the shares of mixtures', () => {
    const [copper, nitrate, boric] = of('copper-sulfate', 'calcium-nitrate', 'boric-acid');
    const codes = (product: ClosedProduct | undefined, perLitre: number): string[] =>
      codesOfSolution([{ product: product!, perLitre }]);
    // CLP: serious eye damage from 3 %, irritation from 1 %; boron from 0.3 %; no solution of a nitrate is an oxidiser
    expect(codes(nitrate, 200)).toEqual(['H318']);
    expect(codes(nitrate, 20)).toEqual(['H319']);
    expect(codes(nitrate, 1)).toEqual([]);
    expect(codes(boric, 4)).toEqual(['H360FD']);
    expect(codes(boric, 2)).toEqual([]);
    expect(codes(copper, 30)).toEqual(['H318', 'H410']);
  });
});

describe('cautions of a report with boric acid, ammonium nitrate, potassium nitrate and silicate', () => {
  const cautions = cautionsFor(
    of('boric-acid', 'ammonium-nitrate', 'potassium-nitrate', 'potassium-silicate', 'potassium-chloride', 'boric-acid'),
    'phalaenopsis',
  );
  const lines = cautions.map(cautionSays);

  it('come once each, with their codes and every product once', () => {
    expect(new Set(cautions.map(({ code }) => code)).size).toBe(cautions.length);
    for (const about of [/^Oxidiser/, /^Toxic to reproduction/, /sale to private persons/, /^Not on leaves above/])
      expect(lines.filter((line) => about.test(line))).toHaveLength(1);
    expect(lines.join('\n').match(/boric-acid \(H360FD\)/g)).toHaveLength(1);
    expect(lines).toContainEqual(
      expect.stringMatching(/^potassium-silicate with ammonium-nitrate: alkali sets ammonia/),
    );
    // 105 mg/L Cl on leaves (laboratory guidance for sensitive crops): potassium chloride is 47.6 % chloride
    expect(lines).toContainEqual(expect.stringContaining('0.221 g/L of potassium-chloride'));
  });

  it('never ask for what a measure on the sheet does not do', () => {
    expect(lines.join('\n')).not.toMatch(/by eye|weigh it/i);
  });

  it('carry their codes and wording as JSON', () => {
    const { hazards } = careJson(cautions);
    expect(hazards.find(({ item }) => item === 'boric-acid')).toEqual({
      item: 'boric-acid',
      codes: ['H360FD'],
      statements: ['May damage fertility; may damage the unborn child'],
      may: false,
    });
    expect(hazardsIn(cautions).map(({ item }) => item)).toHaveLength(new Set(hazards.map(({ item }) => item)).size);
  });
});
