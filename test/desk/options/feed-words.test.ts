import { describe, expect, it } from 'vitest';
import { readBench } from '../../../src/catalog/bench.js';
import { readFeedWords } from '../../../src/desk/options/feed-words.js';
import { problemLine, unwrap } from '../../../src/problem.js';
import { parseRules } from '../../../src/programme/parse-rule.js';
import { littleCatalog } from '../../catalog/little.js';

const catalog = littleCatalog();
const BENCH = `water: rain
feeds:
  moss: { plants: phalaenopsis, medium: sphagnum, rules: ["NH4 < 0.1 * N"] }
  bark: { plants: phalaenopsis, medium: bark }
`;
const base = unwrap(readBench(BENCH, 'bench.yaml', catalog)).feeds;

describe('feeds of a bench with words of options on top', () => {
  it('may name several waters, as bench.yaml may', () => {
    const { bench, problems } = readFeedWords({ water: ['rain', 'Ca=40, alkalinity=100'] }, base, catalog);
    expect(problems).toEqual([]);
    expect(bench.waters?.map(({ mgPerLitre }) => mgPerLitre.Ca)).toEqual([expect.anything(), 40]);
  });

  it('read most ammonium as the rule that it is', () => {
    for (const share of ['0', '10 %', '0.25', '1e-7']) {
      const [rule] = readFeedWords({ water: ['rain'], nh4: share }, base, catalog).bench.feeds[1]!.rules;
      expect([rule]).toEqual(unwrap(parseRules([rule!.text], { owner: 'you' })));
    }
  });

  it('say how a rule was read, once, and leave the rules of the bench as they are', () => {
    const { bench, problems } = readFeedWords({ water: ['rain'], rule: ['Ca > 40'] }, base, catalog);
    expect(bench.feeds.map(({ name, rules }) => [name, rules.map(({ text }) => text)])).toEqual([
      ['moss', ['NH4 < 0.1 * N', 'Ca > 40']],
      ['bark', ['Ca > 40']],
    ]);
    expect(problems.map(problemLine)).toEqual([
      '(--rule): found "Ca > 40"; expected <= or >=. Read > as >=: a limit includes its bound.',
    ]);
  });
});
