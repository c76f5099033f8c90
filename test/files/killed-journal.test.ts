import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { killWhileAdding } from './kill-journal.js';
import { home, strays } from './world.js';

describe('journal add, killed', () => {
  // the whole of it, 300 deaths and twice 500 entries, is `npm run killed`
  it('loses no entry that it acknowledged, and leaves no half line, in 12 deaths', async () => {
    const folder = join(home(), 'killed');
    const { acknowledged, lost, entries, problems, used, summed } = await killWhileAdding(folder, 12, 7);
    expect(lost).toEqual([]);
    expect(problems).toEqual([]);
    expect(acknowledged).toBeGreaterThanOrEqual(12);
    expect(entries).toBeGreaterThanOrEqual(acknowledged);
    expect(used).toBe(summed);
    expect(strays(folder).length).toBeLessThanOrEqual(2);
  });
});
