import { describe, expect, it } from 'vitest';
import { readBench } from '../../../src/catalog/bench.js';
import { readProducts } from '../../../src/catalog/shelf.js';
import { parseMonths, parseWeeks } from '../../../src/desk/options/horizon.js';
import { parseLead } from '../../../src/desk/options/season-wishes.js';
import { parsePenValue } from '../../../src/desk/options/pen.js';
import { parseTemperature } from '../../../src/desk/options/temperature.js';
import { parseJug, parseSpoon } from '../../../src/desk/options/volume.js';
import { shippedCatalog } from '../../../src/desk/shipped-catalog.js';
import { readCan, readPot, readWeekly } from '../../../src/catalog/feed-values.js';
import { readLight, readPots } from '../../../src/catalog/season-values.js';
import { parseRules } from '../../../src/programme/parse-rule.js';
import { BOUNDS, type Bounded, type Bounds, parseAmount } from '../../../src/units/index.js';

type Door = (figure: string) => { ok: boolean };

const bench = (text: string) => readBench(`water: rain\n${text}\n`, 'bench.yaml', shippedCatalog());
const feed = (text: string) => bench(`feeds:\n  moss: { plants: phal, medium: moss, ${text} }`);
const shelf = (form: string, column: string, cell: string) =>
  readProducts(
    `id,form,basis,K2O,${column}\na,${form},${form === 'liquid' && column !== 'density' ? 'w/v' : 'w/w'},20,${cell}\n`,
    'shelf.csv',
  );

/** Every door that a figure of that kind comes through, in the unit of its bounds. */
const DOORS: Record<Bounded, Door[]> = {
  spoon: [(x) => bench(`kit: { spoons: [${x} mL] }`), (x) => parseSpoon(`${x} mL`, {})],
  scaleStep: [(x) => bench(`kit: { scale: ${x} g }`), (x) => bench(`kit: { scale: 0.01 g ± ${x} g }`)],
  syringe: [(x) => bench(`kit: { syringe: ${x} mL }`)],
  syringeMark: [(x) => bench(`kit: { syringe: 1000 mL by ${x} mL }`)],
  dropper: [(x) => bench(`kit: { dropper: ${x} drops/mL }`)],
  can: [(x) => bench(`kit: { cans: [${x} L] }`), (x) => feed(`batch: ${x} L`), (x) => readCan(`${x} L`, {})],
  weekly: [(x) => feed(`weekly: ${x} L`), (x) => readWeekly(`${x} L`, {})],
  pots: [(x) => feed(`pots: ${x}`), (x) => readPots(x, {})],
  pot: [(x) => feed(`pot: ${x} L`), (x) => readPot(`${x} L`, {})],
  light: [(x) => readLight(`${x}${' 1'.repeat(11)}`, {}), (x) => bench(`season: { light: [${x}${', 1'.repeat(11)}] }`)],
  leadDays: [(x) => parseLead(`${x} days`, {}), (x) => parseLead(x, {})],
  jug: [(x) => parseJug(`${x} mL`, {})],
  pack: [(x) => shelf('powder', 'pack', `${x} g`), (x) => shelf('liquid', 'pack', `${x} mL`)],
  onHand: [(x) => shelf('powder', 'on_hand', `${x} g`), (x) => shelf('liquid', 'on_hand', `${x} mL`)],
  labelFigure: [(x) => readProducts(`id,form,K2O\na,powder,${x}\n`, 'shelf.csv')],
  rate: [(x) => shelf('powder', 'max_rate', `${x} g/L`), (x) => shelf('liquid', 'max_rate', `${x} mL/L`)],
  price: [(x) => shelf('powder', 'pack,price', `1 kg,${x}`)],
  waterPrice: [(x) => readBench(`water: { use: rain, price_per_litre: ${x} }\n`, 'bench.yaml', shippedCatalog())],
  density: [(x) => shelf('liquid', 'density', x)],
  bulkDensity: [(x) => shelf('powder', 'bulk_density', x)],
  ecOfLabel: [(x) => shelf('powder', 'ec', x)],
  penReading: [(x) => parsePenValue(`${x} mS/cm`, null, {})],
  temperature: [(x) => parseTemperature(`${x} °C`, {})],
  weeks: [(x) => parseWeeks(x), (x) => parseMonths(String((Number(x) * 12) / 52))],
  strengthPercent: [(x) => feed(`strength: ${x} %`)],
  strengthNitrogen: [(x) => feed(`strength: { N: ${x} mg/L }`)],
  ruleNumber: [
    (x) => parseRules([`NH4 <= ${x} * N`], { owner: 'you' }),
    (x) => parseRules([`NH4 <= ${x}`], { owner: 'you' }),
    (x) => feed(`rules: ["N <= ${x}"]`),
  ],
};

const plain = (x: number): string => (x >= 1e-6 && x < 1e21 ? x.toFixed(12).replace(/\.?0+$/, '') : String(x));

describe.each(Object.keys(BOUNDS) as Bounded[])('%s', (name) => {
  const { least, most, orNothing }: Bounds = BOUNDS[name];
  const through = (x: number): boolean[] => DOORS[name].map((door) => door(plain(x)).ok);
  const all = (ok: boolean): boolean[] => DOORS[name].map(() => ok);

  it('takes both ends, and nothing past them', () => {
    expect(through(least)).toEqual(all(true));
    expect(through(most)).toEqual(all(true));
    expect(through(most * 1.001)).toEqual(all(false));
    if (least > 0) expect(through(least * 0.999)).toEqual(all(false));
    if (least > 0) expect(through(1e-100)).toEqual(all(false));
    if (orNothing) expect(through(0)).toEqual(all(true));
  });
});

it('writes its ends as they are where people write them in other units', () => {
  const otherwise = (Object.values(BOUNDS) as Bounds[]).filter(({ written }) => written !== undefined);
  expect(otherwise.length).toBeGreaterThan(2);
  for (const { least, most, unit, written } of otherwise) {
    for (const [i, end] of [least, most].entries()) {
      const [figure, said] = [parseAmount(`${plain(end)} ${unit}`), parseAmount(written![i]!)];
      if (!figure.ok || !said.ok) throw new Error('an end that cannot be read');
      expect({ ...said.value, unit: '' }).toEqual({ ...figure.value, unit: '' });
    }
  }
});
