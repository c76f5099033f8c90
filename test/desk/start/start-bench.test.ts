import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readProducts } from '../../../src/catalog/shelf.js';
import { checkBench } from '../../../src/desk/check.js';
import { openBench } from '../../../src/desk/open-bench.js';
import { startBench } from '../../../src/desk/start/start-bench.js';
import { Refusal } from '../../../src/problem.js';
import { parseCsv } from './cells.js';
import { UNLIKE_LABELS } from '../../label/printed-unlike.js';
import { EU_LABELS } from '../../label/printed-eu.js';

const PLAIN = {
  label: ['20-20-20', 'Epsom salt'],
  plants: 'phalaenopsis in bark',
  kit: '1 tsp, 0.1 g scale',
  scale: '500',
};

/** Codes of the problems of a refused start. */
async function refused(wishes: Parameters<typeof startBench>[0]): Promise<string[]> {
  const fault = await startBench(wishes).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  expect(fault).toBeInstanceOf(Refusal);
  return (fault as Refusal).problems.map(({ code, where }) => `${code} ${where.file ?? where.field}`);
}

describe('a bench from labels', () => {
  const labels = UNLIKE_LABELS.filter(([, told]) => told.split(' ').length > 2);
  const shelves = Array.from({ length: Math.ceil(labels.length / 10) }, (_, i) => labels.slice(10 * i, 10 * i + 10));

  it.each(shelves.map((shelf, i) => [i, shelf] as const))(
    'of unlike styles, shelf %i, holds what they print',
    async (_, shelf) => {
      const { texts, result } = await startBench({ ...PLAIN, label: shelf.map(([text]) => text) });
      const rows = parseCsv(texts.shelf.text);
      expect(rows).toHaveLength(shelf.length);
      expect(new Set(rows.map(({ id }) => id)).size).toBe(shelf.length);
      shelf.forEach(([, told, name, form = 'powder'], i) => {
        const row = rows[i]!;
        told.split(' ').forEach((word, at, words) => {
          if (at % 2 === 0) expect(Number(row[word]), `${name} ${word}`).toBe(Number(words[at + 1]));
        });
        expect(row.form).toBe(form.split(' ')[0]);
        expect(row.name).toBe(name === '' ? `label ${i + 1}` : name);
        expect(result.labels[i]!.id).toBe(row.id);
      });
      // what was written is a shelf as any other
      const { shelf: read } = await openBench(texts, {});
      expect(read.products.map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
    },
  );

  it('there are more than forty of them', () => {
    expect(labels.length).toBeGreaterThan(40);
  });

  it('tells what was assumed, and a check of what was written tells it again', async () => {
    const { texts, result } = await startBench({
      label: ['Orchid Drops 3-1-4\nShake well.', '10-10-10'],
      kit: '1 tsp',
    });
    expect(result.assumed.map((one) => one.of)).toEqual([
      ...['grade', 'density', 'grade', 'plants', 'batch', 'pen', 'water', 'bulk density'],
    ]);
    const check = await checkBench(texts, {});
    expect(check.result.status).toBe('doubtful');
    expect(check.result.doubts.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['row-assumed', 'pen-assumed', 'water-usual', 'feed-unsized']),
    );
    expect(check.result.missing.map(({ of }) => of)).toContain('price');
  });

  it('assumes nothing where all is told', async () => {
    const { result, texts } = await startBench({
      ...PLAIN,
      label: ['12-6-12\nTotal Nitrogen (N) 12%\nAvailable Phosphate (P2O5) 6%\nSoluble Potash (K2O) 12%'],
      ...{ mix: '4 L', weekly: '8 L', water: ['Ca=40, alkalinity=120'], phase: 'bloom', strength: 'N 90 mg/L' },
      rule: ['Ca >= 2 * Mg'],
    });
    expect(result.assumed).toEqual([]);
    expect(parse(texts.bench.text)).toEqual({
      ...{ water: { Ca: 40, alkalinity: 120 }, kit: { spoons: ['1 tsp'], scale: '0.1 g' }, pen: { scale: 500 } },
      feeds: {
        phalaenopsis: {
          ...{ plants: 'phalaenopsis', medium: 'bark', phase: 'bloom', strength: 'N 90 mg/L' },
          ...{ batch: '4 L', weekly: '8 L', rules: ['Ca >= 2 * Mg'] },
        },
      },
    });
  });

  it('reads plain salts by their names, with the others that a name may mean', async () => {
    const names = [
      'Epsom salt',
      'potassium nitrate',
      'calcium nitrate',
      'Iron EDTA',
      'phosphoric acid',
      'potassium sulphate',
    ];
    const { result, texts } = await startBench({ ...PLAIN, label: names });
    const read = readProducts(texts.shelf.text, 'shelf.csv');
    expect(read.ok && read.value.map(({ id }) => id)).toEqual([
      ...[
        'magnesium-sulfate',
        'potassium-nitrate',
        'calcium-nitrate',
        'iron-edta',
        'phosphoric-acid',
        'potassium-sulfate',
      ],
    ]);
    expect(result.assumed).toContainEqual(
      expect.objectContaining({ id: 'calcium-nitrate', others: ['calcium-ammonium-nitrate'] }),
    );
    // as much in it as in the catalog's
    const { shelf } = await openBench(texts, {});
    const acid = shelf.products.find(({ id }) => id === 'phosphoric-acid')!;
    expect(acid.composition.content.P.stated! / 1580 / 0.75).toBeCloseTo(30.974 / 97.995, 4);
  });

  it('writes a bench that is right by the schema beside it', async () => {
    const { files } = await startBench(
      { ...PLAIN, weekly: '8 L', rule: ['Ca >= 2 * Mg'], water: ['Ca=40', 'rain'] },
      'mine',
    );
    const [schema, , bench] = files.map(({ content }) => content);
    const valid = new Ajv({ allowUnionTypes: true }).compile(JSON.parse(schema!) as object);
    expect(valid(parse(bench!)), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...(parse(bench!) as object), watr: 'rain' })).toBe(false);
    expect(bench).toMatch(new RegExp(`^# yaml-language-server: \\$schema=${files[0]!.name}\\n`));
  });

  it('follows the law of the labels’ style', async () => {
    const european = await startBench({ ...PLAIN, label: [EU_LABELS[0]![0], 'Epsom salt'] });
    expect(parse(european.texts.bench.text)).toMatchObject({ law: 'eu' });
    const mixed = await startBench({ ...PLAIN, label: [EU_LABELS[0]![0], '20-20-20'] });
    expect(parse(mixed.texts.bench.text)).not.toHaveProperty('law');
  });

  it('takes the water that reads most like the grower’s', async () => {
    const waters: string[] = [];
    for (const readingOfWater of ['0.01', '25 ppm', '0.3 mS/cm', '0.55'])
      waters.push(
        (parse((await startBench({ ...PLAIN, readingOfWater })).texts.bench.text) as { water: { use: string } }).water
          .use,
      );
    expect(waters).toEqual(['rain', 'soft-tap', 'median-tap', 'hard-tap']);
  });

  it('tells everything that is wrong at once, each beside what was said', async () => {
    expect(
      await refused({
        label: ['nonsense'],
        plants: 'orchyds in brak',
        mix: '2 gal',
        kit: 'a ladle',
        scale: 'ppm',
        strength: '80',
      }),
    ).toEqual([
      ...['label-not-read --label', 'amount --mix', 'tool --kit', 'pen-scale --scale', 'strength --strength'],
      ...['name-unknown --plants', 'name-unknown --plants'],
    ]);
    expect(await refused({ ...PLAIN, label: [] })).toEqual(['no-label --label']);
    expect(await refused({ ...PLAIN, label: ['bitter salt', '20-20-20', 'Epsom salt'] })).toEqual([
      'salt-twice --label',
    ]);
    expect(await refused({ ...PLAIN, plants: 'vanda in moss' })).toEqual(['medium-not-grown --plants']);
    // what only the reader of a shelf can tell is told of the label
    const over = 'Sample Sum\nTotal Nitrogen (N) 60%\nSoluble Potash (K2O) 70%';
    expect(await refused({ ...PLAIN, label: ['20-20-20', over] })).toEqual([
      expect.stringMatching(/ label 2, Sample Sum$/),
    ]);
  });

  it('names two labels apart', async () => {
    const { result } = await startBench({
      ...PLAIN,
      label: ['Moss Feed 10-5-5', 'Moss Feed 12-2-14', '20-20-20', '20-20-20'],
    });
    expect(result.labels.map(({ id }) => id)).toEqual(['moss-feed', 'moss-feed-2', 'feed-20-20-20', 'feed-20-20-20-2']);
  });

  it('quotes what YAML and spreadsheets would take for something else', async () => {
    const label = ['=Sum, "quoted" #1\nTotal Nitrogen (N) 12%\nSoluble Potash (K2O) 12%'];
    const { texts, result } = await startBench(
      { ...PLAIN, label, currency: 'no', plants: 'Moth Orchids in bark' },
      'yes: #1 "mine"',
    );
    expect(parse(texts.bench.text)).toMatchObject({ name: 'yes: #1 "mine"', currency: 'no' });
    const read = readProducts(texts.shelf.text, 'shelf.csv');
    expect(read.ok && read.value[0]!.name).toBe(result.labels[0]!.name);
    expect(texts.shelf.text).toContain(`"'=Sum`);
  });

  it.each([
    [
      'potassium nitrate 13-0-46, 2 lb, $12',
      { id: 'potassium-nitrate', N: '13', K2O: '46', pack: '2 lb', price: '12' },
    ],
    ['Epsom salt, 4 lb, $6', { id: 'magnesium-sulfate', pack: '4 lb', price: '6' }],
    ['Magnesium sulfate, 2 lb', { id: 'magnesium-sulfate', pack: '2 lb', price: '' }],
    ['Epsom salt, magnesium sulfate heptahydrate', { id: 'magnesium-sulfate' }],
    ['Epsom salt (MgSO4·7H2O) 1.5 kg bag for 6.50 EUR', { id: 'magnesium-sulfate', pack: '1.5 kg', price: '6.5 EUR' }],
    ['Sample 20-20-20, $12/lb, 500 g', { K2O: '20', pack: '500 g', price: '' }],
    ['Epsom salt, $6', { id: 'magnesium-sulfate', price: '' }],
  ])('a pack and its price are no figures of the label: %s', async (text, told) => {
    const { texts, result } = await startBench({ ...PLAIN, label: [text] });
    const [row] = parseCsv(texts.shelf.text);
    expect(row).toMatchObject(told);
    expect(row).not.toHaveProperty('K');
    expect(readProducts(texts.shelf.text, 'shelf.csv').ok).toBe(true);
    if (/[$€]|EUR/.test(text) && row!.price !== '')
      expect(parse(texts.bench.text)).toHaveProperty('currency', /EUR/.test(text) ? 'EUR' : 'USD');
    if (/\/lb/.test(text))
      expect(result.assumed).toContainEqual(expect.objectContaining({ of: 'pack', leftOut: ['$12/lb'] }));
  });

  it('counts dollars as the bench does, and tells a price in other money', async () => {
    const { texts } = await startBench({ ...PLAIN, label: ['Epsom salt, 4 lb, $6'], currency: 'CAD' });
    expect(parse(texts.bench.text)).toHaveProperty('currency', 'CAD');
    expect(await refused({ ...PLAIN, label: ['Epsom salt, 4 lb, $6'], currency: 'EUR' })).toEqual([
      expect.stringMatching(/^price-currency /),
    ]);
  });

  it('a grade beats one figure alone that contradicts it, and it is said', async () => {
    const { texts, result } = await startBench({ ...PLAIN, label: ['13-0-46 potassium 12 %'] });
    expect(parseCsv(texts.shelf.text)[0]).toMatchObject({ N: '13', K2O: '46' });
    expect(result.assumed.map((one) => one.of)).toContain('figure against grade');
    // the potassium of the potash is no contradiction
    const element = await startBench({ ...PLAIN, label: ['13-0-46, potassium 38 %'] });
    expect(element.result.assumed.map((one) => one.of)).not.toContain('figure against grade');
  });

  it('mixes what the largest can holds where nobody told how much', async () => {
    const wishes = { label: PLAIN.label, kit: 'teaspoon, half a teaspoon, gallon jug, 2 L can', gallon: 'us' };
    const { texts, result } = await startBench(wishes);
    expect(parse(texts.bench.text)).toMatchObject({
      kit: { spoons: ['1 teaspoon', '1/2 teaspoon'], cans: ['1 US gal', '2 L'] },
      feeds: { 'moth orchids': { batch: '1 US gal' } },
    });
    expect(result.assumed).toContainEqual({ of: 'batch', batch: '1 US gal', ofKit: true });
    expect(await refused({ ...wishes, mix: '4 L', gallon: undefined })).toEqual(['amount --kit']);
  });

  it('one double salt makes its label as it is rounded, and no other', async () => {
    const doubts = async (text: string): Promise<string[]> =>
      (await startBench({ ...PLAIN, label: [text] })).result.labels[0]!.doubts.map(({ code }) => code);
    // 5Ca(NO3)2·NH4NO3·10H2O holds N 15.5, NO3-N 14.3, NH4-N 1.3, Ca 18.5 % by atomic weights
    const label = (nitrate: number, ammonium: number): string =>
      `15.5-0-0, ${nitrate} % nitrate, ${ammonium} % ammoniacal, Ca 19 %, derived from calcium ammonium nitrate`;
    expect(await doubts(label(14.5, 1))).not.toContain('sources-disagree');
    expect(await doubts(label(11, 4.5))).toContain('sources-disagree');
  });
});
