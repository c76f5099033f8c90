import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { blendMadeShape, frontierShape } from '../../src/report/schemas.js';
import { folder, velamen } from './world.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const MOSS = ['blend', '--bench', join(ROOT, 'examples/moss-without-ammonium')];

describe('blend --prices', () => {
  it('prints every range, and the short form only the few that matter', async () => {
    const bare = [...MOSS, '--bare'];
    const short = await velamen(bare, ROOT);
    const all = await velamen([...bare, '--prices'], ROOT);
    expect(short.stdout).toContain('What it costs to insist');
    expect(short.stdout).not.toContain('Prices between which');
    expect(all.stdout).toContain('Prices between which this blend stays the cheapest');
    expect(all.stdout).toContain('Prices below which a product left out would come in');
    const { prices } = blendMadeShape.parse(JSON.parse((await velamen([...bare, '--json'], ROOT)).stdout));
    expect(prices!.limits.length).toBeGreaterThan(2);
    expect(prices!.used.map((line) => line.id)).toContain('potassium-nitrate');
  });
});

describe('blend --frontier', () => {
  it('prints feeds that `--near` gives and draws them into a file', async () => {
    const home = folder();
    const ran = await velamen([...MOSS, '--frontier', '--to', 'curve.svg', '--json'], home);
    const result = frontierShape.parse(JSON.parse(ran.stdout));
    expect(ran.exit).toBe(0);
    const svg = readFileSync(join(home, 'curve.svg'), 'utf8');
    expect(svg.match(/<circle/g)).toHaveLength(result.points.length);
    expect(svg).toContain('how far main elements may be from their aims');
    // what is printed is what can be asked
    for (const { near, costPerLitre, main } of result.points) {
      const asked = await velamen([...MOSS, '--near', `${Math.round(100 * near)}%`, '--json'], home);
      const feed = blendMadeShape.parse(JSON.parse(asked.stdout));
      expect([feed.costPerLitre, feed.near!.main]).toEqual([costPerLitre, main]);
    }
    // a picture of its own: nothing is fetched, no script runs
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|<script|href/);
    expect(svg).not.toContain('NaN');
  });

  it('exits with 3 where there is nothing to trade, and draws nothing', async () => {
    const home = folder();
    const ran = await velamen([...MOSS, '--frontier', '--rule', 'K <= 1', '--to', 'curve.svg'], home);
    expect(ran.exit).toBe(3);
    expect(ran.stdout).toContain('nothing to trade');
    expect(ran.stderr).toContain('curve.svg: note: found nothing to write into it');
    expect(() => readFileSync(join(home, 'curve.svg'))).toThrow('ENOENT');
  });
});

describe('refusals', () => {
  it.each([
    [
      ['--frontier', '--closest'],
      'found --frontier and --closest expected the trade-off by itself Leave out --frontier or --closest.',
    ],
    [['--frontier', '--at-most', '2'], 'found --frontier and --at-most expected the trade-off by itself'],
    [['--frontier', '--prices'], 'found --frontier and --prices expected the trade-off by itself'],
    [
      ['--prices', '--closest'],
      'found --prices and --closest expected prices of the cheapest blend of the whole shelf',
    ],
    [
      ['--prices', '--at-most', '2'],
      'found --prices and --at-most expected prices of the cheapest blend of the whole shelf',
    ],
    [['--at-most', '0'], 'found a feed of no products expected 1 or more Water alone is no feed.'],
    [
      ['--svg'],
      'found --svg expected text, --json, --csv or --html Only `blend --frontier` and `journal show` are drawn.',
    ],
    [['--to', 'a.svg'], 'found "a.svg" expected a name that ends in .txt, .json, .csv or .html'],
    [
      ['--frontier', '--to', 'gone/a.svg'],
      'found a folder that is not there expected a place to write to Make the folder, or name another place.',
    ],
    [['--frontier', '--to', 'a-folder.svg'], 'found a folder of that name expected a place to write to'],
  ])('%j', async (options, wanted) => {
    const ran = await velamen([...MOSS, ...options], folder({ 'a-folder.svg/x': '' }));
    expect(ran.exit).toBe(2);
    expect(ran.stderr.replace(/\s+/g, ' ')).toContain(wanted);
  });

  it('of one picture for several feeds', async () => {
    const bench = join(ROOT, 'examples/what-the-shelf-reaches');
    const ran = await velamen(['blend', '--bench', bench, '--frontier', '--to', 'a.svg'], folder());
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('one feed for --svg');
  });
});
