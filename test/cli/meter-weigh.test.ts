import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SHAPES } from '../../src/report/schemas.js';
import { folder, velamen } from './world.js';

const SHELF = [
  '# invented',
  'id,name,form,N,NO3-N,K2O,bulk_density,density,notes',
  'kn,"Nitrate, of potassium",powder,13,13,46,,,"says ""dry"""',
  'drops,Drops,liquid,10,10,10,,1.1,',
  '',
].join('\r\n');
const WORDS = 'ten level 1/4 tsp of kn weigh 11.2 g';

describe('meter --weigh', () => {
  it('keeps bulk density and its spread on the shelf, and nothing else changes', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(['meter', '--weigh', WORDS, '--save', '--json'], home);
    expect(ran.exit).toBe(0);
    const json = JSON.parse(ran.stdout);
    expect(SHAPES.get('weighed')!.parse(json)).toBeTruthy();
    // 11.2 g in ten quarters of 4.929 mL
    expect(json.bulkDensity).toBeCloseTo(11.2 / (2.5 * 4.92892), 5);
    // 8 % of a spoon over the root of ten, 1 % of the scale, a tenth of a gram twice: 2.7 % and twice that
    expect(json.bulkOff / json.bulkDensity).toBeCloseTo(0.0545, 3);
    expect(readFileSync(join(home, 'shelf.csv'), 'utf8')).toBe(SHELF.replace('46,,,', '46,0.909 +/- 0.05,,'));
  });

  it('says what it found, and how to keep it', async () => {
    const ran = await velamen(['meter', '--weigh', WORDS], folder({ 'shelf.csv': SHELF }));
    expect(ran.exit).toBe(0);
    expect(ran.stdout).toMatch(/One level 1\/4 tsp of Nitrate, of potassium is 1\.12 g/);
    expect(ran.stdout).toMatch(/Not saved: --save/);
  });

  it('a coarse scale of the kit counts, however fine the figure is written', async () => {
    const home = folder({ 'shelf.csv': SHELF, 'bench.yaml': 'water: rain\nkit: { spoons: [1/4 tsp], scale: 1 g }\n' });
    const { step, from } = JSON.parse((await velamen(['meter', '--weigh', WORDS, '--json'], home)).stdout);
    expect(step).toBe(1);
    expect(from[0].sd).toBeCloseTo(Math.hypot(Math.SQRT2 / Math.sqrt(12) / 11.2, 0.01), 4);
  });

  it.each([
    [['--weigh', 'ten level 1/4 tsp of drops weigh 11 g'], 'not-a-powder'],
    [['--weigh', 'ten level 1/4 tsp of kn weigh 112 g'], 'no-such-powder'],
    [['--weigh', 'ten level 1/4 tsp of kn weigh __ g'], 'weighed-spoons'],
    [['--weigh', 'ten level 1/4 tsp of potassium-nitrate weigh 11 g', '--save'], 'not-on-shelf'],
    [['--weigh', WORDS, '--before', '0.1'], 'beside-job'],
    [['--weigh', WORDS, '--measured', '4 L'], 'beside-job'],
    [['--weigh', WORDS, '--standard', '1413 µS'], 'two-jobs'],
    [['--weigh', WORDS, '--product', 'potassium-nitrate'], 'weighed-spoons'],
  ])('%j is refused: %s', async (argv, code) => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(['meter', ...argv, '--json'], home);
    expect(ran.exit).toBe(2);
    expect(ran.stdout + ran.stderr).toContain(code);
    expect(readFileSync(join(home, 'shelf.csv'), 'utf8')).toBe(SHELF);
  });
});
