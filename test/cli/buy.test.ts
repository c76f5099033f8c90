import { describe, expect, it } from 'vitest';
import { fileURLToPath } from 'node:url';
import { buyShape, substitutesShape } from '../../src/report/buy-shapes.js';
import { folder, velamen } from './world.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

const MARKET = `id,form,N,NO3-N,K2O,Ca,pack,price,kind
__proto__,powder,14,14,46,,100 g,5,
lime,powder,15.5,15.5,,19,200 g,4,
dear-lime,powder,15.5,15.5,,19,200 g,6,
no-pack,powder,15.5,15.5,,19,,6,
sour,powder,15.5,15.5,,19,200 g,1,acid
`;
const BENCH = `water: pure
currency: EUR
kit: { scale: 0.1 g }
feeds:
  ferns:
    plants: fern
    medium: bark
    strength: 50 %
    weekly: 10 L
`;
/** Trace elements and the rest that the small market does not sell. */
const SHELF = `id,form,P2O5,MgO,SO3,Fe,Mn,Zn,Cu,B,Mo,pack,price,on_hand
rest,powder,10,10,20,1,0.4,0.15,0.06,0.2,0.01,500 g,9,900 g
`;
const home = (over: Record<string, string> = {}): string =>
  folder({ 'bench.yaml': BENCH, 'shelf.csv': SHELF, 'market.csv': MARKET, ...over });

const buy = async (cwd: string, ...more: string[]) => {
  const ran = await velamen(['buy', '--market', 'market.csv', '--json', ...more], cwd);
  return { ...ran, result: buyShape.parse(JSON.parse(ran.stdout)) };
};

describe('buy', () => {
  it('chooses the cheaper of two that are alike, whatever the ids are', async () => {
    const { exit, result } = await buy(home());
    expect(exit).toBe(0);
    const [best] = result.options;
    expect(best!.packs.map((p) => [p.id, p.count]).sort()).toEqual([
      ['__proto__', 1],
      ['lime', 1],
    ]);
    expect(best!.spend).toBe(9);
    expect(result.notes.join(' ')).toContain('1 without pack or price');
    expect(result.notes.join(' ')).toContain('1 for changing pH');
    expect(result.comparison!.fewest!.products).toHaveLength(2);
  });

  it('honours bans, needs, budget and the number of new products', async () => {
    const spend = async (...more: string[]) => (await buy(home(), ...more)).result.options[0]?.spend ?? null;
    expect(await spend('--ban', 'lime')).toBe(11);
    expect(await spend('--need', 'dear-lime')).toBe(11);
    expect(await spend('--budget', '9')).toBe(9);
    expect(await spend('--budget', '8.99')).toBe(null);
    expect(await spend('--at-most', '2')).toBe(9);
    expect(await spend('--at-most', '1')).toBe(null);
    expect(await spend('--ban', 'lime', '--ban', 'dear-lime')).toBe(null);
  });

  it('says which wish is in the way, or which feed fails and why', async () => {
    const poor = await buy(home(), '--budget', '8');
    expect(poor.exit).toBe(3);
    expect(poor.result.failures[0]!.conflict[0]!.because[0]).toContain('the least that does costs 9 EUR');
    const banned = await buy(home(), '--ban', 'lime', '--ban', 'dear-lime', '--ban', '__proto__');
    expect(banned.result.failures.map((f) => f.feed)).toEqual(['ferns']);
    expect(banned.result.failures[0]!.conflict.some((line) => /N|K|Ca/.test(line.limit))).toBe(true);
  });

  it('buys more of what is used up as no new product, and takes an unknown stock for enough', async () => {
    const header = SHELF.replace('id,form,', 'id,form,N,NO3-N,Ca,').replace('rest,powder,', 'rest,powder,,,,');
    const shelf = (onHand: string) => `${header}lime,powder,15.5,15.5,19,,,,,,,,,,200 g,4,${onHand}\n`;
    const used = await buy(home({ 'shelf.csv': shelf('0 g') }), '--at-most', '1');
    expect(used.result.options[0]!.packs.find((p) => p.id === 'lime')).toMatchObject({ count: 1, isNew: false });
    const unknown = await buy(home({ 'shelf.csv': shelf('') }));
    expect(unknown.result.options[0]!.packs.map((p) => p.id)).toEqual(['__proto__']);
    expect(unknown.result.notes.join(' ')).toContain('lime: taken as enough');
    expect(unknown.result.options[0]!.stock.find((s) => s.id === 'lime')).toMatchObject({ left: null, months: null });
  });

  it('counts a longer time in packs', async () => {
    const short = (await buy(home(), '--weeks', '1')).result.options[0]!;
    const long = (await buy(home(), '--weeks', '400')).result.options[0]!;
    const packs = (option: typeof short) => option.packs.reduce((sum, p) => sum + p.count, 0);
    expect(packs(long)).toBeGreaterThan(packs(short));
    for (const line of long.stock) expect(line.used).toBeLessThanOrEqual((line.onHand! + line.bought) * (1 + 1e-6));
  });

  it('is not finished, and not impossible, when the seconds that it was given are over', async () => {
    let seconds = 0;
    const now = () => new Date(1e12 + 1000 * seconds++ * 60);
    const asked = ['buy', '--market', 'market.csv', '--seconds', '20'];
    const ran = await velamen([...asked, '--json'], home(), { now });
    const result = buyShape.parse(JSON.parse(ran.stdout));
    expect([result.status, ran.exit, result.failures]).toEqual(['unfinished', 0, []]);
    expect(result.proof.sentence).toMatch(/^not finished: the seconds were over with 0 of 3 labels read/);
    expect((await velamen(asked, home(), { now })).stdout).toMatch(/^Not finished: no purchase found yet for ferns/);
    expect((await velamen(['buy', '--market', 'market.csv'], home(), { now })).stdout).toMatch(/^Buy 1 bag/);
  });

  it('shows its progress on a terminal only, and takes it back', async () => {
    // a search that finds nothing is soon over, and shows itself as any other
    const argv = ['buy', '--market', 'market.csv', '--budget', '8.99'];
    const there = await velamen(argv, home(), { isTTY: true });
    expect(there.stderr).toMatch(/seeking the best purchase/);
    expect(there.stderr.lastIndexOf('\r\u001b[K')).toBeGreaterThan(there.stderr.lastIndexOf('seeking'));
    expect((await velamen(argv, home())).stderr).not.toContain('seeking');
    expect((await velamen([...argv, '--json'], home(), { isTTY: true })).stderr).not.toContain('seeking');
    expect((await velamen(argv, home(), { isTTY: true, env: { TERM: 'dumb' } })).stderr).not.toContain('seeking');
  });

  it('tells a market without anything for sale', async () => {
    const ran = await velamen(['buy', '--market', 'market.csv'], home({ 'market.csv': 'id,form,Ca\nx,powder,19\n' }));
    expect(ran.exit).toBe(3);
    expect(ran.stderr).toContain('no row with pack and price');
  });
});

describe('buy --instead-of', () => {
  const insteadOf = async (...more: string[]) => {
    const ran = await velamen(['buy', '--json', ...more], root);
    return { ...ran, result: substitutesShape.parse(JSON.parse(ran.stdout)) };
  };

  it('doses a salt with less water of crystals by the ratio of molar masses', async () => {
    const { result } = await insteadOf(
      '--bench',
      'examples/moss-without-ammonium',
      '--instead-of',
      'magnesium-sulfate',
    );
    // MgSO4·H2O 138.38 and MgSO4·7H2O 246.47 g/mol (sums of abridged atomic weights, IUPAC/CIAAW 2021)
    expect(result.feeds.length).toBeGreaterThan(0);
    for (const feed of result.feeds) {
      expect(feed.substitutes[0]!.id).toBe('magnesium-sulfate-monohydrate');
      expect(feed.substitutes[0]!.perOriginal!).toBeCloseTo(138.38 / 246.47, 3);
      expect(feed.substitutes[0]!.largestMiss).toBeLessThan(1e-4);
    }
  });

  it('names the nearest first, each with every limit of the feed where that can be', async () => {
    const { exit, result } = await insteadOf(
      '--bench',
      'examples/moss-without-ammonium',
      '--instead-of',
      'sample-calcium',
    );
    expect(exit).toBe(0);
    const [feed] = result.feeds;
    const misses = feed!.substitutes.map((s) => s.largestMiss);
    expect(misses.length).toBeGreaterThan(1);
    expect(misses).toEqual([...misses].sort((a, b) => a - b));
    expect(feed!.substitutes.every((s) => s.holds && s.broken.length === 0)).toBe(true);
  });

  it('refuses a product that is not there, and options of a purchase', async () => {
    const ran = await velamen(
      ['buy', '--bench', 'examples/moss-without-ammonium', '--instead-of', 'sample-calcim', '--budget', '3'],
      root,
    );
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('Did you mean sample-calcium?');
    expect(ran.stderr).toContain('--budget with --instead-of');
  });
});
