import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { velamen } from './world.js';

const MOSS = join(import.meta.dirname, '../../examples', 'moss-without-ammonium');

const judged = async (...argv: string[]) => {
  const asked = ['meter', '--bench', MOSS, ...argv];
  const json = JSON.parse((await velamen([...asked, '--json'], MOSS)).stdout);
  return { json, lines: (await velamen(asked, MOSS)).stdout.split('\n') };
};

describe('the verdict comes first', () => {
  it.each([
    [['--reading', '122 ppm'], 'good', 'Good. Feed it.'],
    [['--reading', '0.222'], 'a little off', 'A little off; feed it.'],
    [
      ['--reading', '155 ppm'],
      'find out',
      'Don’t feed yet: find out whether the can was not topped up (still at 3 L), or Sample Base Powder B went in twice.',
    ],
    [['--reading', '0'], 'find out', 'Don’t feed yet: find out whether the pen shows the same once more.'],
  ] as const)('%j: %s', async (argv, verdict, sentence) => {
    const { json, lines } = await judged(...argv);
    expect(json).toMatchObject({ verdict, sentence });
    // it may run over a line
    expect(lines.slice(0, 2).join(' ').startsWith(sentence)).toBe(true);
    expect(json.todo.length).toBeLessThanOrEqual(5);
    // what is to be done stands right under it
    const first = lines.find((line) => line.startsWith('  - '));
    if (json.todo.length > 0) expect(first?.startsWith(`  - ${json.todo[0].slice(0, 20)}`)).toBe(true);
  });

  it('a reading exactly on plan proposes nothing, also of doses that stand on their limits', async () => {
    for (const ways of [[], ['--bare'], ['--closest'], ['--bare', '--mix', '1 US gal']]) {
      const { json } = await judged(...ways, '--reading', '0.2');
      const { mSPerCm } = json.judgement.readings[0].expected;
      const told = (await judged(...ways, '--reading', mSPerCm.toFixed(4))).json;
      expect(told).toMatchObject({ verdict: 'good', todo: [], remedy: { status: 'feed', add: [], waterLitres: 0 } });
    }
  });
});
