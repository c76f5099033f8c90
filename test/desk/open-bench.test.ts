import { describe, expect, it } from 'vitest';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { openBench } from '../../src/desk/open-bench.js';
import { made, type Wishes } from '../../src/desk/wishes.js';
import { dashed } from '../../src/desk/options/option.js';
import { Refusal } from '../../src/problem.js';
import { exampleFiles, shelfFiles } from './benches.js';

const codes = async (files: BenchFiles, wishes: Wishes): Promise<string[]> => {
  const opened = await openBench(files, wishes).catch((fault: unknown) => fault);
  if (!(opened instanceof Refusal)) throw new Error('it was not refused');
  return opened.problems.map((p) => p.code);
};

describe('a bench is opened from texts', () => {
  it('with a request for each feed, in the order of the file', async () => {
    const { bench, requests, warnings, currency } = await openBench(exampleFiles('what-the-shelf-reaches'), {});
    expect(requests.map((request) => request.header.name)).toEqual(bench!.feeds.map((feed) => feed.name));
    expect(requests.length).toBeGreaterThan(2);
    expect([currency, warnings]).toEqual(['EUR', []]);
  });

  it('without bench.yaml, by wishes alone: rain is assumed, and said', async () => {
    const shelf = shelfFiles('id,form,formula\nkn,powder,KNO3\n');
    const open = await openBench(shelf, { plants: 'moth orchid', medium: 'moss', strength: '50 %', mix: '1 US gal' });
    expect(open.bench).toBeNull();
    expect(open.warnings.map((w) => w.code)).toEqual(['water-assumed']);
    const [{ header }] = open.requests as [(typeof open.requests)[0]];
    expect(header).toMatchObject({ plants: 'phalaenopsis', medium: 'sphagnum', phase: 'growth', strengthFactor: 0.5 });
    expect(header.batchLitres).toBeCloseTo(3.785, 3);
  });

  it('every mistake of bench, shelf and wishes is told at once, after what went wrong with the files', async () => {
    const files: BenchFiles = {
      bench: { name: 'bench.yaml', text: 'water: nowhere\nfeeds: { a: { plants: moss, medium: bark } }\n' },
      shelf: { name: 'shelf.csv', text: 'id,form,formula\nkn,powder,KNO\n' },
      problems: [
        { code: 'not-utf-8', severity: 'error', where: { file: 'market.csv' }, found: '', expected: '', fix: '' },
      ],
    };
    const told = await codes(files, { strength: '5', nh4: '30', atMost: 'two', mix: '3 kg' });
    expect(told[0]).toBe('not-utf-8');
    for (const code of ['strength', 'share', 'number-of-products', 'volume']) expect(told).toContain(code);
    expect(told.length).toBeGreaterThan(6);
  });

  it('a file that could not be read is not missed a second time', async () => {
    const why = { code: 'no-such-file', severity: 'error', where: {}, found: '', expected: '', fix: '' } as const;
    expect(await codes({ bench: null, shelf: null, problems: [why] }, {})).toEqual(['no-such-file']);
    expect(await codes({}, {})).toEqual(['no-shelf', 'no-feed', 'water-assumed']);
  });

  it('a shelf is altered by what is wished, and says so', async () => {
    const { shelf } = await openBench(exampleFiles('moss-without-ammonium'), {
      with: ['potassium-sulfate'],
      without: ['sample-base'],
    });
    expect(shelf.name).toBe('shelf.csv, without sample-base, with potassium-sulfate');
    expect(shelf.products.map((product) => product.id)).toContain('potassium-sulfate');
    expect(shelf.products.map((product) => product.id)).not.toContain('sample-base');
  });
});

describe('wishes', () => {
  it('are named by their options', () => {
    expect(['mix', 'atMost', 'readingOfWater'].map(dashed)).toEqual(['--mix', '--at-most', '--reading-of-water']);
  });

  it('count as made where they say something', () => {
    const wishes: Wishes = { closest: false, rule: [], with: ['a'], atMost: '2', year: true };
    expect(made(wishes, ['closest', 'rule', 'with', 'year'])).toEqual(['with', 'year']);
  });
});
