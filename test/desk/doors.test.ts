import { describe, expect, it } from 'vitest';
import { parseAdvice } from '../../src/advice/parse.js';
import { parseRecipe } from '../../src/advice/recipe.js';
import { readBench, readProducts } from '../../src/catalog/index.js';
import { readFeedWords } from '../../src/desk/options/feed-words.js';
import { parseMoney } from '../../src/desk/options/number.js';
import { parseFactor, parsePenValue, parseScale, parseWaterReading } from '../../src/desk/options/pen.js';
import { parseShare, parseSure } from '../../src/desk/options/share.js';
import { parseDose } from '../../src/desk/options/stock.js';
import { parseStorage, parseTemperature } from '../../src/desk/options/temperature.js';
import { readCan, readWeekly } from '../../src/catalog/feed-values.js';
import { parseJug, parseSpoon } from '../../src/desk/options/volume.js';
import { type Checked, checked } from '../../src/problem.js';
import { parseRules } from '../../src/programme/index.js';
import { littleCatalog } from '../catalog/little.js';

/** One way in for a quantity: the value that a text gives there, or the codes of what is refused; and the decimal commas that are told. */
type Door = (text: string) => { got: number | null | undefined | string; commas: number };

const catalog = littleCatalog();

const value = <T>(read: Checked<T>, of: (value: T) => number | null | undefined): ReturnType<Door> =>
  read.ok
    ? { got: of(read.value), commas: read.warnings.filter((p) => p.code === 'decimal-comma').length }
    : { got: read.problems.map((p) => p.code).join(), commas: 0 };

/** A bench whose text is quoted, as every value with a comma has to be. */
const bench =
  (yaml: (quoted: string) => string, of: (b: Bench) => number | null | undefined): Door =>
  (text) =>
    value(readBench(`currency: EUR\n${yaml(JSON.stringify(text))}`, 'bench.yaml', catalog), of);
type Bench = Extract<ReturnType<typeof readBench>, { ok: true }>['value'];

const shelf =
  (column: string, of: (p: Product) => number | undefined, form = 'powder'): Door =>
  (text) =>
    value(
      readProducts(
        `id,form,basis,density,K2O,pack,${column}\na,${form},w/w,${form === 'liquid' ? 1 : ''},20,1 kg,${JSON.stringify(text)}\n`,
        'shelf.csv',
      ),
      ([product]) => of(product!),
    );
/** The same in a file whose cells are separated by semicolons. */
const semicolons =
  (column: string, of: (p: Product) => number | undefined): Door =>
  (text) =>
    value(readProducts(`id;form;K2O;pack;${column}\na;powder;20;1 kg;${text}\n`, 'shelf.csv'), ([product]) =>
      of(product!),
    );
type Product = Extract<ReturnType<typeof readProducts>, { ok: true }>['value'][number];

const option =
  <T extends number | null>(parse: (text: string, where: object) => Checked<T>): Door =>
  (text) =>
    value<T>(parse(text, { field: '--option' }), (x) => x);

const feed = (key: string, quoted: string): string =>
  `water: rain\nfeeds: { a: { plants: phal, medium: moss, ${key}: ${quoted} } }\n`;

const salts = catalog.salts;

const QUANTITIES: Record<string, { texts: [text: string, value: number | null][]; doors: Record<string, Door> }> = {
  'a temperature, °C': {
    texts: [
      ['15,5 °C', 15.5],
      ['15.5C', 15.5],
      ['15.5 ºC', 15.5],
      ['15.5\u202f℃', 15.5],
      ['59 °F', 15],
      ['59F', 15],
      ['15', 15],
      ['15 degrees C', 15],
      ['１５ °C', 15],
    ],
    doors: { '--temperature': option(parseTemperature), '--coldest': option(parseStorage) },
  },
  'a conductivity, mS/cm': {
    texts: [
      ['0,8 dS/m', 0.8],
      ['0.8 dS/m', 0.8],
      ['800 µS/cm', 0.8],
      ['800 μS/cm', 0.8],
      ['800 uS/cm', 0.8],
      ['800µS', 0.8],
      ['0.8 mS/cm', 0.8],
      ['0.8 mS', 0.8],
      ['.8 mS/cm', 0.8],
      ['0.8\u00a0mS/cm', 0.8],
    ],
    doors: {
      '--reading': (text) => value(parsePenValue(text, null, {}), (read) => read.mSPerCm),
      'a reading in ppm too': (text) => value(parsePenValue(text, 500, {}), (read) => read.mSPerCm),
      '--water-reading': (text) => value(parseWaterReading(text, null, {}), (x) => x),
      'shelf.csv ec': shelf('ec', (p) => p.ec),
      'shelf.csv ec with ;': semicolons('ec', (p) => p.ec),
      advice: (text) =>
        value(parseAdvice(`EC ${text}`), ({ figures: [figure] }) =>
          figure?.kind === 'conductivity' ? figure.mSPerCm.low : undefined,
        ),
    },
  },
  'a scale, ppm per mS/cm': {
    texts: [
      ['500', 500],
      ['0,5', 500],
      ['0.64', 640],
      ['EC', null],
    ],
    doors: {
      '--scale': (text) => value(parseScale(text, {}), (x) => x),
      advice: (text) =>
        value(parseAdvice(text === 'EC' ? 'EC 0.5 mS/cm' : `200 ppm on a ${text} pen`), ({ figures: [figure] }) =>
          figure?.kind === 'pen' ? figure.scale?.ppmPerMilliSiemens.low : null,
        ),
      'pen:': bench(
        (text) => `water: rain\npen: ${text}\n`,
        ({ pen }) => (pen.reads === 'EC' ? null : pen.scale),
      ),
      'pen: { scale }': bench(
        (text) => `water: rain\npen: { scale: ${text} }\n`,
        ({ pen }) => (pen.reads === 'EC' ? null : pen.scale),
      ),
    },
  },
  'a share': {
    texts: [
      ['62,5 %', 0.625],
      ['62.5%', 0.625],
      ['62.5 percent', 0.625],
    ],
    doors: {
      '--nh4': option(parseShare),
      '--sure': option(parseSure),
      'strength:': bench(
        (text) => feed('strength', text),
        ({ feeds: [a] }) => (a?.strength.kind === 'percent' ? a.strength.percent / 100 : undefined),
      ),
      advice: (text) => value(parseAdvice(`${text} strength 20-20-20 at 1 g/L`), (advice) => advice.share),
    },
  },
  money: {
    texts: [
      ['12,50', 12.5],
      ['12.50', 12.5],
      ['12,50 EUR', 12.5],
      ['€12.50', 12.5],
      ['EUR 12,50', 12.5],
      ['12.50\u00a0€', 12.5],
    ],
    doors: {
      '--budget': option(parseMoney),
      'shelf.csv price': shelf('price', (p) => p.price),
      'shelf.csv price with ;': semicolons('price', (p) => p.price),
      'water price_per_litre': bench(
        (text) => `water: { use: rain, price_per_litre: ${text} }\n`,
        ({ waters: [water] }) => water?.pricePerLitre,
      ),
    },
  },
  'a number': {
    texts: [
      ['0,9', 0.9],
      ['0.9', 0.9],
      ['.9', 0.9],
      ['9e-1', 0.9],
    ],
    doors: {
      'water: { Ca }': bench(
        (text) => `water: { Ca: ${text} }\n`,
        ({ waters: [water] }) => water?.mgPerLitre.Ca,
      ),
      '--water': (text) => {
        const { bench: read, problems } = readFeedWords({ water: [`Mg=3, Ca=${text}, Na=2`] }, [], catalog);
        return value(checked(read, problems), ({ waters }) => waters?.[0]?.mgPerLitre.Ca);
      },
      'shelf.csv Mg': shelf('Mg', (p) => p.composition.content.Mg.low / 10),
      'shelf.csv bulk_density': shelf('bulk_density', (p) => p.bulkDensity),
      '--pen-factor': option(parseFactor),
      'rules:': (text) => value(parseRules([`Ca <= ${text}`], { owner: 'you' }), ([rule]) => rule?.upper),
    },
  },
  'a volume, mL': {
    texts: [
      ['0,1 L', 100],
      ['.1 L', 100],
      ['100 mL', 100],
      ['100\u2009ml', 100],
      ['10 cL', 100],
    ],
    doors: {
      '--brim': (text) => value(readCan(text, {}), (litres) => 1000 * litres),
      '--weekly': (text) => value(readWeekly(text, {}), (litres) => 1000 * litres),
      '--jug': option(parseJug),
      '--spoon': option(parseSpoon),
      'batch:': bench(
        (text) => feed('batch', text),
        ({ feeds: [a] }) => 1000 * a!.batchLitres!,
      ),
      'cans:': bench(
        (text) => `water: rain\nkit: { cans: [${text}] }\n`,
        ({ kit }) => kit.cans?.[0]?.millilitres,
      ),
      'syringe:': bench(
        (text) => `water: rain\nkit: { syringe: ${text} }\n`,
        ({ kit }) => kit.syringeMillilitres,
      ),
      'a recipe': (text) =>
        value(parseRecipe(`1 g potassium-nitrate in ${text}`, salts), (recipe) => 1000 * recipe.volumeLitres),
    },
  },
  'a mass, g': {
    texts: [
      ['1,5 g', 1.5],
      ['1 1/2 g', 1.5],
      ['1½ g', 1.5],
      ['1500 mg', 1.5],
    ],
    doors: {
      'shelf.csv on_hand': shelf('on_hand', (p) => p.onHand),
      'scale:': bench(
        (text) => `water: rain\nkit: { scale: ${text} }\n`,
        ({ kit }) => kit.scaleStepGrams,
      ),
      'a recipe': (text) =>
        value(parseRecipe(`${text} potassium-nitrate in 4 L`, salts), ({ lines: [line] }) => line?.amount),
    },
  },
  'a rate, mL/L': {
    texts: [
      ['2,5 mL/L', 2.5],
      ['2.5 mL per L', 2.5],
      ['10 mL / 4 L', 2.5],
    ],
    doors: {
      'shelf.csv max_rate': shelf('max_rate', (p) => p.maxRate, 'liquid'),
      '--dose': (text) => value(parseDose(text, {}), (ratio) => 1000 / ratio),
    },
  },
};

const CASES = Object.entries(QUANTITIES).flatMap(([quantity, { texts, doors }]) =>
  texts.flatMap(([text, wanted]) =>
    Object.entries(doors).map(([door, read]) => ({ quantity, text, wanted, door, read })),
  ),
);

describe('a text means the same through every door', () => {
  it.each(CASES)('$quantity: "$text" through $door', ({ text, wanted, door, read }) => {
    const { got, commas } = read(text);
    expect(typeof got === 'number' ? Number(got.toFixed(9)) : got).toBe(wanted);
    expect(commas).toBe(text.includes(',') && !door.endsWith(';') ? 1 : 0);
  });

  const DOORS = Object.values(QUANTITIES).flatMap(({ doors }) => Object.entries(doors));
  it.each(DOORS)('"1,234" and "1 234" with a unit are refused through %s', (door, read) => {
    for (const number of door.endsWith(';') ? ['1 234', '1 234,5'] : ['1,234', '1 234', '1 234,5', '1.234,5'])
      for (const unit of ['', ' °C', ' mS/cm', ' %', ' EUR', ' L', ' g', ' mL/L'])
        expect(read(`${number}${unit}`).got, `${number}${unit}`).toBeTypeOf('string');
  });
});
