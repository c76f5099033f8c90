import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { velamen } from './world.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const line = ['blend', '--bench', 'examples/moss-without-ammonium'];

describe('a terminal', () => {
  it('gets colour, unless it or its owner says no', async () => {
    const escapes = async (env: Record<string, string>, isTTY = true) =>
      (await velamen(line, root, { env, isTTY, columns: 120 })).stdout.includes('\u001b[');
    expect(await escapes({ TERM: 'xterm' })).toBe(true);
    expect(await escapes({ TERM: 'xterm', NO_COLOR: '1' })).toBe(false);
    expect(await escapes({ TERM: 'dumb' })).toBe(false);
    expect(await escapes({ TERM: 'xterm' }, false)).toBe(false);
  });

  it.each([40, 50, 60, 80, 200])('of %i columns is not overrun', async (columns) => {
    const ran = await velamen(line, root, { isTTY: true, columns });
    const longest = Math.max(...ran.stdout.split('\n').map((l) => [...l].length));
    expect(longest).toBeLessThanOrEqual(Math.min(80, columns));
  });
});
