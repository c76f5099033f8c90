/**
 * The mixing sheet of a six-item feed, from its files to the last line (blend, rounding, sureness, readings, text), once the program is warm.
 * To stay below 300 ms; the very first sheet of a process takes longer while the engine compiles, see DEVELOPERS.md.
 */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bench, describe } from 'vitest';
import { velamen } from '../cli/world.js';
import { SIX_ITEMS } from '../page/six-items.js';

const home = mkdtempSync(join(tmpdir(), 'velamen-bench-'));
for (const [name, text] of Object.entries(SIX_ITEMS)) writeFileSync(join(home, name), text);

describe('a mixing sheet of six items', () => {
  bench('sheet', async () => {
    await velamen(['sheet'], home);
  });
  bench('blend alone', async () => {
    await velamen(['blend'], home);
  });
});
