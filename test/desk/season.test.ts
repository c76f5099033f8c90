import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { seasonFor } from '../../src/desk/season.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { Refusal } from '../../src/problem.js';
import { renderCsv } from '../../src/report/csv.js';
import { renderHtml } from '../../src/report/html.js';
import { jsonOf } from '../../src/report/json-of.js';
import { seasonShape } from '../../src/report/season-shapes.js';
import { seasonSheet } from '../../src/report/season.js';
import { seasonCalendar } from '../../src/report/season-calendar.js';
import { lastsSays } from '../../src/report/says/season.js';
import { renderText } from '../../src/report/text.js';
import type { SeasonResult } from '../../src/year/season-types.js';
import { exampleFiles } from './benches.js';

const MOSS = exampleFiles('moss-without-ammonium');
const HOSTILE = 'a;b,c "</title><script>=1\\n';

/** The shelf of the example, under feeds of its own. */
const bench = (feeds: string, more = ''): BenchFiles => ({
  ...MOSS,
  bench: {
    name: 'bench.yaml',
    text: `name: "${'x; y, z'}"\nwater: { use: rain, price: 0.001 }\ncurrency: EUR\nkit: { scale: 0.01 g }\n${more}\nfeeds:\n${feeds}`,
  },
});

const SEVERAL = bench(
  `  ${JSON.stringify(HOSTILE)}: { plants: pleurothallid, medium: sphagnum, batch: 4 L, weekly: 10 L, pots: 40, pot: 0.3 L, watering: 5 L }
  nobile: { plants: nobile, medium: bark, batch: 4 L, watering: 5 L, months: { Jun: none, Jul: "growth, 50 %, 2 L" } }
`,
  'season: { hemisphere: south }',
);

const asked = new Map<string, Promise<SeasonResult>>();
function year(files: BenchFiles, wishes: Wishes = {}): Promise<SeasonResult> {
  const key = JSON.stringify([files.bench?.text, files.shelf?.text, wishes]);
  const before = asked.get(key) ?? seasonFor(files, { from: '2026-12-01', ...wishes }).then(({ result }) => result);
  asked.set(key, before);
  return before;
}

const fedIn = ({ feeds }: SeasonResult, name: string) =>
  feeds
    .find((feed) => feed.name === name)!
    .spans.map(({ from, weeks, state }) => [
      from,
      weeks,
      state.kind === 'fed' ? `${state.phase} ${state.strength}` : state.kind,
    ]);

describe('a year of feed', () => {
  it('gives no feed while plants rest, and does as the grower says of a month', async () => {
    // south: nobile types rest from April to July; June and July are the grower's own
    expect(fedIn(await year(SEVERAL), 'nobile')).toEqual([
      ['2026-12-01', 18, 'growth 100 %'],
      ['2027-04-06', 8, 'rest'],
      ['2027-06-01', 5, 'none'],
      ['2027-07-06', 4, 'growth 50 %'],
      ['2027-08-03', 17, 'growth 100 %'],
    ]);
    expect(fedIn(await year(SEVERAL), HOSTILE).map(([, weeks, says]) => [weeks, says])).toEqual([
      [22, 'growth 100 %'],
      [18, 'rest 100 %'],
      [12, 'growth 100 %'],
    ]);
  });

  it('uses litres times doses, over the months as over the year, and no dose twice', async () => {
    const result = await year(SEVERAL);
    expect(result.mixes).toHaveLength(4);
    for (const { id, used, cost, price, pack } of result.products) {
      const inMonths = result.months.flatMap(({ uses }) => uses.filter((use) => use.id === id));
      expect(inMonths.reduce((sum, { amount }) => sum + amount, 0)).toBeCloseTo(used, 9);
      const dosed = result.mixes.reduce(
        (sum, { litres, items }) => sum + litres * (items.find((item) => item.id === id)?.perLitre ?? 0),
        0,
      );
      expect(dosed).toBeCloseTo(used, 9);
      expect(cost).toBeCloseTo((used * price!) / pack!, 9);
    }
    // 52 weeks at 10 L; nobile 18 and 17 weeks at 5 L, 4 at 2 L
    expect(result.litres).toBe(520 + 35 * 5 + 8);
    const water = 0.001 * result.litres;
    const products = result.products.reduce((sum, { cost }) => sum + cost!, 0);
    expect(result.cost).toBeCloseTo(products + water, 9);
    expect(result.months.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(result.cost, 9);
    expect(result.months.reduce((sum, { weeks }) => sum + weeks, 0)).toBe(52);
  });

  it('of the south is that of the north half a year later', async () => {
    const files = bench('  a: { plants: pleurothallid, medium: sphagnum, batch: 4 L, weekly: 10 L }\n');
    const phases = async (hemisphere: string) => {
      const { feeds, months } = await year(files, { hemisphere });
      const byMonth = new Map(months.map(({ key, isRest }) => [Number(key.slice(5)), isRest]));
      const spans = feeds[0]!.spans.map(({ state }) => (state.kind === 'fed' ? state.phase : state.kind));
      return { byMonth, spans };
    };
    const [north, south] = [await phases('north'), await phases('south')];
    for (const [month, isRest] of north.byMonth) expect(south.byMonth.get(((month + 5) % 12) + 1)).toBe(isRest);
    expect(north.spans).toEqual(['rest', 'growth', 'rest']);
    expect(south.spans).toEqual(['growth', 'rest', 'growth']);
  });

  it('goes by the grower’s own light and temperature', async () => {
    const files = bench('  a: { plants: pleurothallid, medium: sphagnum, batch: 4 L, weekly: 10 L }\n');
    const lamps = Array(12).fill('8').join(' ');
    const cold = ['12', ...Array(11).fill('20')].join(', ');
    const result = await year(files, { light: lamps, roomTemperature: cold });
    expect(fedIn(result, 'a')).toEqual([
      ['2026-12-01', 5, 'growth 100 %'],
      ['2027-01-05', 4, 'rest 100 %'],
      ['2027-02-02', 43, 'growth 100 %'],
    ]);
    expect(result.climate).toMatchObject({ isOwn: true, hemisphereBy: 'temperature' });
    // where the figures are as good north as south, it matters to plants with months of their own alone
    const even = await year(files, { light: lamps });
    expect(even.climate).toMatchObject({ hemisphere: 'north', hemisphereBy: 'assumed' });
    expect(even.notes).toEqual([]);
  });

  it('makes one mix for all where it is asked to, and uses no more of it than its share', async () => {
    const result = await year(SEVERAL, { one: true });
    const both = result.mixes.find(({ feeds }) => feeds.length === 2)!;
    expect(both.feeds.map(({ parts }) => parts.water > 0)).toContain(true);
    for (const { id, used } of result.products) {
      const dosed = result.mixes.reduce(
        (sum, { litres, items }) => sum + litres * (items.find((item) => item.id === id)?.perLitre ?? 0),
        0,
      );
      expect(dosed).toBeCloseTo(used, 9);
    }
    expect(result.litres).toBe((await year(SEVERAL)).litres);
  });

  it('is none for plants that are never fed, and says so', async () => {
    const result = await year(bench('  pitcher: { plants: nepenthes, medium: sphagnum, weekly: 5 L }\n'));
    expect(fedIn(result, 'pitcher')).toEqual([['2026-12-01', 52, 'rest']]);
    expect([result.litres, result.mixes, result.products, result.orders]).toEqual([0, [], [], []]);
    expect(result.events.map(({ kind }) => kind)).toEqual(['rest']);
    expect(renderText(seasonSheet(result), { columns: 80, colour: false })).toMatch(
      /^pitcher, 1 Dec 2026 to 29 Nov 2027: no feed\n\nNo feed while they rest: pitcher.\n/,
    );
  });

  it('tells the week in which a jar is empty, as counted by hand, and orders it in time', async () => {
    const feed =
      '  a: { plants: pleurothallid, medium: sphagnum, batch: 4 L, weekly: 10 L, months: { Dec: growth } }\n';
    const files = bench(feed);
    const plenty = await year(files, { hemisphere: 'south' });
    const [first] = plenty.products;
    // seven and a half weeks of growth are on hand: the eighth week is short of half
    const weekly = 10 * plenty.mixes[0]!.items.find(({ id }) => id === first!.id)!.perLitre;
    const rows = MOSS.shelf!.text.split('\n');
    const head = rows.find((row) => row.startsWith('id,'))!.split(',');
    const short = rows.map((row) => {
      if (!row.startsWith(`${first!.id},`)) return row;
      const cells = row.split(',');
      cells[head.indexOf('on_hand')] = `${(7.5 * weekly).toFixed(4)} g`;
      return cells.join(',');
    });
    const result = await year(
      { ...files, shelf: { name: 'shelf.csv', text: short.join('\n') } },
      { hemisphere: 'south', lead: '10 days' },
    );
    const line = result.products.find(({ id }) => id === first!.id)!;
    // 49 days after 1 December is 19 January; ten days before that is the ninth
    expect(line.runsOut).toEqual({ week: 8, day: '2027-01-19' });
    expect(result.orders[0]).toMatchObject({ id: first!.id, day: '2027-01-09', needed: '2027-01-19', isLate: false });
  });

  it('buys first what every feed can be mixed from, where it is asked to', async () => {
    const empty = { name: 'shelf.csv', text: 'id,form,basis,K2O,on_hand\nold-potash,powder,w/w,50,0 g\n' };
    const files = {
      ...bench('  a: { plants: pleurothallid, medium: sphagnum, batch: 4 L, weekly: 10 L }\n'),
      shelf: empty,
    };
    const asked = { from: '2026-12-01', buy: true } as const;
    const { met, result } = await seasonFor({ ...files, market: MOSS.shelf! }, asked);
    expect(met).toBe(true);
    const first = result.orders.filter(({ needed }) => needed === '2026-12-01');
    expect(first.length).toBeGreaterThan(1);
    for (const { id, packs, pack } of first) {
      const { onHand, stock } = result.products.find((product) => product.id === id)!;
      expect(onHand).toBe(0);
      expect(stock![0]).toBe(packs * pack);
      expect(Math.min(...stock!)).toBeGreaterThanOrEqual(0);
    }
    const without = await seasonFor(files, { from: '2026-12-01' });
    expect(without.met).toBe(false);
    expect(without.result.products).toEqual([]);
  });

  it('knows the pots: litres a watering, waterings a week, what flushing takes', async () => {
    const [moss, nobile] = (await year(SEVERAL)).feeds;
    expect(moss!.pots).toMatchObject({ pots: 40, wateringLitres: 5, wateringsAWeek: 2, weeklyAssumed: false });
    expect(moss!.flush).toMatchObject({ everyWeeks: 4, litresPerPot: 0.6, litres: 24 });
    expect(nobile!.pots).toMatchObject({ pots: null, wateringsAWeek: 1, weeklyAssumed: true });
  });
});

describe('its forms', () => {
  it('are JSON of the published shape, text of 80 columns, CSV and a page without scripts, whatever the names', async () => {
    for (const result of [await year(SEVERAL), await year(SEVERAL, { one: true })]) {
      const json = jsonOf('season', result);
      expect(seasonShape.parse(json)).toEqual(json);
      const sheet = seasonSheet(result);
      for (const columns of [80, 40]) {
        const lines = renderText(sheet, { columns, colour: false, full: true }).split('\n');
        expect(lines.filter((line) => [...line].length > columns)).toEqual([]);
      }
      const page = renderHtml([sheet], { full: true });
      expect(page).not.toMatch(/<script|javascript:|onload/i);
      expect(page.match(/<svg role="img"/g)!.length).toBeGreaterThan(2);
      expect(page.match(/<svg/g)!.length).toBe(page.match(/<desc>/g)!.length);
      // no cell of a table can run as a formula
      expect(renderCsv(sheet)).not.toMatch(/(^|,|")[=+@]/m);
    }
  });

  it('tell of a jar whose stock nobody knows how long a pack lasts', () => {
    const jar = {
      id: 'a',
      name: '',
      unit: 'g',
      price: null,
      cost: null,
      runsOut: null,
      packs: 0,
      stock: null,
    } as const;
    const says = (used: number, pack: number | null, onHand: number | null = null) =>
      lastsSays({ ...jar, used, pack, onHand }, 52);
    // 104 g in 52 weeks are 2 g a week
    expect(says(104, 50)).toBe('a pack: 25 weeks');
    expect(says(104, 1000)).toBe('a pack: 9.62 years');
    expect(says(104, null)).toBe('not known');
    expect(says(104, 50, 500)).toBe('lasts');
  });

  it('are a calendar whose every date lies inside the year', async () => {
    const result = await year(SEVERAL);
    const component = new ICAL.Component(ICAL.parse(seasonCalendar(result)) as never);
    const events = component.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
    expect(events).toHaveLength(result.events.length);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    const days = events.flatMap((event) => {
      const iterator = event.iterator();
      const all: string[] = [];
      for (let day = iterator.next(); day; day = iterator.next()) all.push(day.toString());
      return all;
    });
    expect(days.filter((day) => day < result.from || day > result.to)).toEqual([]);
    const mixing = events.filter(({ summary }) => summary.startsWith('Mix'));
    expect(mixing.every(({ startDate }) => startDate.isDate)).toBe(true);
    expect(events.map(({ summary }) => summary).join('\n')).toContain(`Flush ${HOSTILE.replace('\\n', '\\n')}`);
  });
});

describe('what is refused', () => {
  const problems = async (files: BenchFiles, wishes: Wishes) =>
    seasonFor(files, wishes).then(
      () => [],
      (fault: unknown) => {
        if (!(fault instanceof Refusal)) throw fault;
        return fault.problems.map(({ code, where }) => `${code} ${where.line ?? where.field}`);
      },
    );

  it('is told all at once', async () => {
    const files = bench(
      '  a: { plants: pleurothallid, medium: sphagnum, pots: 1.5, pot: 4 kg, months: { Dezember: rest, Jan: [] } }\n  b: { plants: fern, medium: peat }\n',
      'season: { hemisphere: west, light: [1, 2, 3], warmth: 3 }',
    );
    expect(await problems(files, { lead: 'soon', from: '2026-02-30', weekly: '5 L' })).toEqual([
      'key-unknown 5',
      'hemisphere 5',
      'twelve 5',
      'pots 7',
      'volume 7',
      'month 7',
      'month-empty 7',
      'date --from',
      'lead --lead',
    ]);
  });

  it('is a year without a first day, and a feed of which nobody says how much', async () => {
    const files = bench('  a: { plants: pleurothallid, medium: sphagnum }\n');
    expect(await problems(files, {})).toEqual(['no-day --from', 'no-weekly 7']);
    expect(await problems(files, { weekly: '5 L' })).toEqual(['no-day --from']);
    expect(await problems(files, { weekly: '5 L', from: '9999-12-01' })).toEqual(['date --from']);
  });
});
