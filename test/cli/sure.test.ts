import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sheetShape } from '../../src/report/sheet-shapes.js';
import { SIX_ITEMS } from '../page/six-items.js';
import { folder, velamen } from './world.js';

const MOSS = ['sheet', '--bench', fileURLToPath(new URL('../../examples/moss-without-ammonium', import.meta.url))];

/** Spoons alone: level scoops of powders from the catalog vary by more than the tenth that nitrogen may stray. */
const SPOONS = { ...SIX_ITEMS, 'bench.yaml': SIX_ITEMS['bench.yaml'].replace('scale: 0.01 g, ', '') };

describe('sheet --sure', () => {
  it('gives doses that keep every limit in the share asked for', async () => {
    const plain = sheetShape.parse(JSON.parse((await velamen([...MOSS, '--json'], folder())).stdout));
    const ran = await velamen([...MOSS, '--json', '--sure', '90%'], folder());
    const sure = sheetShape.parse(JSON.parse(ran.stdout));
    expect(ran.exit).toBe(0);
    expect(sure.status).toBe('kept');
    expect(sure.sure!.share).toBeGreaterThanOrEqual(0.9);
    expect(plain.sure!.share).toBeLessThan(0.9);
    expect(sure.proof).toMatch(/limits tightened by .* standard deviations/);
    expect(sure.sureness[0]).toMatch(/90 were asked for/);
    for (const { low, high } of sure.sure!.elements) expect(high).toBeGreaterThanOrEqual(low);
  });

  it('exits with 3 where no doses reach it, and says what is to blame', async () => {
    const ran = await velamen(['sheet', '--sure', '99.9%'], folder(SPOONS));
    expect(ran.exit).toBe(3);
    const says = ran.stdout.replace(/\s+/g, ' ');
    expect(says).toMatch(/No doses found keep every limit in 99\.9 of 100 batches; the surest keep them in \d+/);
    expect(says).toMatch(/Most to blame is (the spread of level spoons|the bulk density)/);
    expect(says).toMatch(/It would help to take .*a 0\.01 g scale \(\d+(\.\d)? of 100\)/);
  });
});
