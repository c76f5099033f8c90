import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folder, velamen } from './world.js';

const MOSS = join(import.meta.dirname, '../../examples', 'moss-without-ammonium');

const FEEDS = 'feeds:\n  moth: { plants: phalaenopsis, medium: bark, strength: 80 %, batch: 4 L }\n';
/** Salts without a bulk density of their own: the catalog knows theirs. */
const SALTS = [
  'id,name,form,formula,on_hand',
  'lime,Lime saltpetre,powder,Ca(NO3)2·4H2O,',
  'nitre,Nitre,powder,KNO3,',
  'potash,Potash phosphate,powder,KH2PO4,',
  'bitter,Bitter salt,powder,MgSO4·7H2O,',
].join('\n');

async function remedyOf(home: string, ...argv: string[]) {
  const ran = await velamen(['meter', ...argv, '--json'], home);
  return JSON.parse(ran.stdout);
}

describe('the remedy', () => {
  it.each([
    ['2.4 L', '207 ppm'],
    ['7 L', '74 ppm'],
  ])(
    'doses of a 4 L can in %s read as they should there, and are brought back all the same',
    async (volume, reading) => {
      const json = await remedyOf(MOSS, '--measured', volume, '--reading', reading);
      expect(json.judgement.verdict).toBe('within');
      expect(json.remedy).toMatchObject({ status: 'rescue', aside: [], misses: [] });
      expect(json.remedy.says[0]).toBe(`The doses were for 4 L, and ${volume} were measured.`);
      expect(json.remedy.sure).toBeGreaterThan(json.remedy.asIs);
    },
  );

  it('is told by the spoon where the doses are, also by the catalog’s bulk density', async () => {
    const kit = 'kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp, 1/16 tsp, 1/32 tsp, 1/64 tsp] }\n';
    const home = folder({
      'bench.yaml': `name: x\nwater: { Ca: 3, Mg: 1, S: 2 }\npen: EC\n${kit}${FEEDS}`,
      'shelf.csv': SALTS,
    });
    const { remedy } = await remedyOf(home, '--did', 'nitre forgotten');
    expect(remedy.add.length).toBeGreaterThan(0);
    for (const { words } of remedy.add) expect(words).toMatch(/^\d level .*tsp/);
  });

  it('without anything to measure with, the amount says so', async () => {
    const home = folder({
      'bench.yaml': `name: x\nwater: { Ca: 3, Mg: 1, S: 2 }\npen: EC\nkit: { syringe: 1 mL }\n${FEEDS}`,
      'shelf.csv': SALTS,
    });
    const { remedy } = await remedyOf(home, '--measured', '5 L', '--reading', '0.8');
    expect(remedy.add.length).toBeGreaterThan(0);
    for (const { words } of remedy.add)
      expect(words).toMatch(/^[\d.]+ g \(your kit has nothing for it: borrow a scale\)$/);
  });

  it('names each of several waters, and how much of it', async () => {
    const bench = readFileSync(join(MOSS, 'bench.yaml'), 'utf8');
    const home = folder({
      'bench.yaml': bench.replace('{ use: rain }', '[{ use: rain, price: 0 }, { use: median-tap, price: 0.002 }]'),
      'shelf.csv': readFileSync(join(MOSS, 'shelf.csv'), 'utf8'),
    });
    const { remedy } = await remedyOf(home, '--measured', '3 L', '--reading', '168 ppm');
    expect(remedy.waters.length).toBeGreaterThan(0);
    for (const { name } of remedy.waters) expect(remedy.steps.join()).toMatch(new RegExp(`(?:L of|with) ${name}`));
  });

  it('a forgotten dose is still on the shelf, though it was all that there was', async () => {
    const kit = 'kit: { scale: 0.01 g }\n';
    const bench = `name: x\nwater: { Ca: 3, Mg: 1, S: 2 }\npen: EC\n${kit}${FEEDS}`;
    const plan = await remedyOf(folder({ 'bench.yaml': bench, 'shelf.csv': SALTS }), '--reading', '1');
    const { amount } = plan.plan.find(({ id }: { id: string }) => id === 'nitre');
    const scarce = SALTS.replace('KNO3,', `KNO3,${amount} g`);
    const forgotten = await remedyOf(
      folder({ 'bench.yaml': bench, 'shelf.csv': scarce }),
      ...['--reading', '2: 0.63', '--reading', '3: 0.63', '--reading', 'end: 0.59'],
    );
    expect(forgotten.judgement.causes[0]).toMatchObject({ id: 'nitre', variant: 'forgotten' });
    const added = forgotten.remedy.add.find(({ id }: { id: string }) => id === 'nitre');
    expect(added.amount).toBeGreaterThan(0.3 * amount);
    expect(added.amount).toBeLessThanOrEqual(amount);
  });

  it('limits that the plan itself misses are told in words', async () => {
    const bench = `name: x\nwater: rain\npen: EC\nkit: { scale: 0.01 g }\n${FEEDS}`;
    const { remedy } = await remedyOf(
      folder({ 'bench.yaml': bench, 'shelf.csv': SALTS.replace(/\npotash.*/, '') }),
      '--reading',
      '1.9',
    );
    expect(remedy.aside.join()).toMatch(/P ≥/);
  });

  it('of a recipe that is over its limits, a can that is further over is not fed', async () => {
    const recipe = ['--recipe', '1.2 g sample-base + 1 g sample-calcium in 4 L', '--feed', 'moss'];
    const right = await remedyOf(MOSS, ...recipe, '--reading', '278 ppm');
    expect(right.remedy.aside.join()).toMatch(/N ≤/);
    expect(right.remedy.status).toBe('feed');
    const off = await remedyOf(MOSS, ...recipe, '--reading', '0.9');
    expect(off.judgement.causes.length).toBeGreaterThan(1);
    expect(off.remedy.asIs).toBeLessThan(0.1);
    for (const { status } of off.remedy.alternatives) expect(status).toBe('rescue');
  });
});
