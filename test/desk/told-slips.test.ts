import { describe, expect, it } from 'vitest';
import { judgeReading } from '../../src/desk/judge-reading.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { meterJson } from '../../src/report/json/meter.js';
import { meterSheet } from '../../src/report/meter.js';
import { meterShape } from '../../src/report/meter-shapes.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from './benches.js';

const moss = exampleFiles('moss-without-ammonium');

async function said(did: string, wishes: Wishes = {}) {
  const { result } = await judgeReading(moss, { did, ...wishes });
  meterShape.parse(meterJson(result));
  const text = renderText(meterSheet(result), { columns: 200, colour: false });
  return { ...result, text, first: text.split('\n')[0]! };
}

describe('what the grower says he did', () => {
  it('is judged without a pen, and a remedy is told', async () => {
    const twice = await said('potassium nitrate twice');
    expect(twice.first).toBe('Don’t feed yet: mend it first.');
    expect(twice.text).toContain('Potassium nitrate 13-0-46 went in twice (0.26 g instead of 0.13 g)');
    expect(twice.text).not.toContain('The reading');
    expect(twice.remedy).toMatchObject({ status: 'rescue' });
  });

  it('as planned is good', async () => {
    expect((await said('0.13 g potassium nitrate')).first).toBe('Good. Feed it.');
  });

  it('a can that was filled too little is topped up', async () => {
    expect((await said('filled to 3 L')).first).toBe('Top up to the mark, then feed.');
  });

  it('a reading that agrees is told so', async () => {
    const { judgement, text } = await said('potassium nitrate twice', { reading: ['144 ppm'] });
    expect(judgement.told).toMatchObject({ agrees: true });
    expect(text).toContain('The reading agrees with it.');
  });

  it('a reading that contradicts is told first of all', async () => {
    const { first, judgement, verdict } = await said('forgot the calcium', { reading: ['121 ppm'] });
    expect(first).toBe(
      'Don’t feed yet: find out whether Sample Calcium Powder A did not go in, as you said: the pen shows 121 ppm (500 scale), where that would show 70 ppm.',
    );
    expect(verdict).toBe('find out');
    expect(judgement.told).toMatchObject({ agrees: false });
  });

  it('a doubt is settled by the pen where it can be, and left where it cannot', async () => {
    const out = await said('not sure if the calcium went in', { reading: ['70 ppm'] });
    expect(out.judgement.told!.ways[0]!.probability).toBeGreaterThan(0.8);
    const settled = await said('not sure if the calcium went in', { reading: ['121 ppm'] });
    expect(settled.first).toBe('Good. Feed it.');
    const open = await said('no idea whether the calcium went in');
    expect(open.judgement.told!.ways.map(({ probability }) => probability)).toEqual([0.5, 0.5]);
  });

  it('where the pen tells apart what may be, it is read before anything is mended in the dark', async () => {
    const { first, text } = await said('no idea whether the calcium went in');
    expect(first).toMatch(/^Don’t feed yet: find out whether Sample Calcium Powder A did not go in/);
    // the bench's pen is on the 500 scale; 121 and 70 ppm are what the tests above read
    expect(text).toMatch(
      /- Read the pen: about 1[12]\d ppm: feed it as it is; about (?:6\d|7\d) ppm: add [^;]*Calcium/,
    );
    expect(text).toContain('Without a pen: ');
    expect(text).not.toContain('If you cannot find out');
  });

  it('many times the plan is judged, and poured away', async () => {
    const { first, text } = await said('2.08 g potassium nitrate instead of 0.13 g');
    expect(first).toBe('Don’t feed it.');
    expect(text).toMatch(/[Pp]our it where local rules allow/);
  });

  it('no cause puts more water in the can than the largest can holds', async () => {
    const most = async (wishes: Wishes): Promise<number> => {
      const { result } = await judgeReading(moss, { reading: ['100 ppm'], ...wishes });
      const volume = result.judgement.causes.find(({ cause }) => cause === 'volume');
      return volume === undefined ? 0 : volume.value.high * result.litres;
    };
    expect(await most({})).toBeGreaterThan(4.5);
    expect(await most({ brim: '4 L' })).toBeLessThanOrEqual(4);
    expect(await most({ brim: '4.4 L' })).toBeLessThanOrEqual(4.4);
    const bench = { ...moss.bench!, text: `${moss.bench!.text}\n` };
    const withCan = bench.text
      .replace(/^kit: \{/m, 'kit: { cans: [4 L], ')
      .replace(/^kit:\n/m, 'kit:\n  cans: [4 L]\n');
    expect(withCan).toContain('cans: [4 L]');
    const { result } = await judgeReading({ ...moss, bench: { ...bench, text: withCan } }, { reading: ['100 ppm'] });
    const volume = result.judgement.causes.find(({ cause }) => cause === 'volume');
    expect((volume?.value.high ?? 0) * result.litres).toBeLessThanOrEqual(4);
  });

  it('tap water without an analysis is asked for, or measured by the pen', async () => {
    await expect(said('used tap water')).rejects.toMatchObject({
      problems: [{ code: 'did', where: { field: '--did' } }],
    });
    const { told } = await said('used tap water', { reading: ['1: 200 ppm'] });
    expect(told[0]!.waters).toMatch(/^Tap water/);
  });

  it('a recipe of plants unknown is completed, from the words alone', async () => {
    const files = {
      shelf: moss.shelf!,
      bench: { name: 'bench.yaml', text: 'name: x\nwater: { use: rain }\npen: EC\n' },
    };
    const told = async (did: string) => {
      const wishes = { did, recipe: '0.43 g sample-calcium + 0.28 g sample-base in 4 L' };
      const { result } = await judgeReading(files, wishes);
      return meterJson(result);
    };
    expect(await told('base forgotten')).toMatchObject({
      verdict: 'mend',
      todo: ['Add 0.28 g Sample Base Powder B, stirring until it is clear.', 'It is then your recipe.'],
    });
    expect((await told('filled to 3 L')).todo[0]).toBe('Fill up with water to 4 L.');
    expect((await told('base twice')).todo).toEqual([
      'Add 0.43 g Sample Calcium Powder A, stirring until it is clear.',
      'Pour half into a second jug.',
      'Fill both up with water to 4 L.',
      'It is then 2 times your recipe for 4 L, as strong as it was to be.',
    ]);
  });

  it('works on a recipe and on more than the batch; a volume told twice is refused', async () => {
    const recipe = await said('base forgotten', { recipe: '0.43 g sample-calcium + 0.28 g sample-base in 4 L' });
    expect(recipe.told[0]!.slips).toEqual([{ kind: 'item', item: 1, factor: 0 }]);
    expect((await said('filled to 8 L', { mix: '8 L' })).first).toBe('Good. Feed it.');
    await expect(said('filled to 5 L', { measured: '5 L' })).rejects.toMatchObject({ problems: [{ code: 'did' }] });
  });
});

describe('remedies a person would think of', () => {
  it('what was forgotten goes in as it was to go in', async () => {
    const { text, plan } = await said('calcium part forgotten');
    expect(text).toContain(`Add ${plan[0]!.words} ${plan[0]!.name}`);
  });

  it('over the brim it is two jugs; the batch is the brim where nobody said it', async () => {
    const { text, remedy } = await said('everything twice');
    expect(text).toContain('Pour half into a second jug.');
    expect(text).toContain('Fill both up with water to the 4 L mark.');
    expect(remedy).toMatchObject({ doing: { keepShare: 1, jugs: 2, fillTo: 8 } });
    const roomy = await said('everything twice', { brim: '10 L' });
    expect(roomy.text).toContain('Fill up with water to the 8 L mark.');
  });

  it('marks are quarters of the gallon that the batch is in', async () => {
    const { text } = await said('everything twice', { mix: '1 US gal' });
    expect(text).toMatch(/Fill both up with water to the (?:1|3\/4) US gal mark\./);
    expect(text).not.toMatch(/0\.\d+ L of water/);
  });

  it('what cannot be mended is offered to others before it is poured away', async () => {
    const lost = await said('2.5 g base');
    expect(lost.first).toBe('Don’t feed it.');
    expect(lost.elsewhere.map(({ outdoors }) => outdoors)).toContain(true);
    expect(lost.text).toMatch(/Houseplants that stand outdoors can have it/);
  });

  it('tells how many of 100 cans it saves beside the best that the program finds', async () => {
    const { text } = await said('potassium nitrate twice');
    expect(text).toMatch(
      /Every limit then holds in \d+ % of the cans .* the best that the program finds saves \d+ %\./,
    );
  });
});
