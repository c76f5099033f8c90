import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sheetShape } from '../../src/report/sheet-shapes.js';
import { SIX_ITEMS } from '../page/six-items.js';
import { folder, velamen } from './world.js';

const MOSS = ['sheet', '--bench', fileURLToPath(new URL('../../examples/moss-without-ammonium', import.meta.url))];

/** Spoons alone: level scoops vary too much for nearly every can to hold. */
const SPOONS = { ...SIX_ITEMS, 'bench.yaml': SIX_ITEMS['bench.yaml'].replace('scale: 0.01 g, ', '') };

describe('sheet --sure', () => {
  it('gives doses that keep every limit in nine of ten cans without being asked', async () => {
    const ran = await velamen([...MOSS, '--json'], folder());
    const plain = sheetShape.parse(JSON.parse(ran.stdout));
    expect(ran.exit).toBe(0);
    expect(plain.status).toBe('kept');
    expect(plain.sure!.share).toBeGreaterThanOrEqual(0.9);
    for (const { low, high } of plain.sure!.elements) expect(high).toBeGreaterThanOrEqual(low);
  });

  it('exits with 3 where no doses reach what was asked', async () => {
    const ran = await velamen(['sheet', '--sure', '99.9%', '--full'], folder(SPOONS));
    expect(ran.exit).toBe(3);
    const says = ran.stdout.replace(/\s+/g, ' ');
    expect(says).toMatch(/About \d+ of 100 cans keep every limit.*99 were asked for/);
    expect(says).toMatch(/Most of it comes from|Most at risk/);
  });
});
