import { describe, expect, it } from 'vitest';
import { missesOn } from './feed-plan-misses.js';

/** Shelves on which the search was made to work, and others. */
const KNOWN = Array.from({ length: 72 }, (_, i) => i + 1);
const FRESH = Array.from({ length: 120 }, (_, i) => i + 1001);

/**
 * Of shelves on which nearness, cans and cost are all judged by a referee of their own, so many may be poor in one of them: there the least
 * width lies at an edge where a hundredth nearer costs several times as much, or where a limit is crossed in every second can.
 */
const POOR = 1 / 20;

describe('the feed that is given, on shelves of good growers', () => {
  it.each([
    ['shelves it was made for', KNOWN],
    ['others', FRESH],
  ])(
    'is at its nitrogen, near, sure and thrifty by a count and a referee of their own: %s',
    async (_, seeds) => {
      const grave: string[] = [];
      const poor: string[] = [];
      for (const seed of seeds) {
        const misses = await missesOn(seed);
        grave.push(...misses.grave.map((what) => `${seed}: ${what}`));
        if (misses.poor.length > 0) poor.push(`${seed}: ${misses.poor.join(', ')}`);
      }
      expect(grave).toEqual([]);
      expect(poor.length, poor.join('\n')).toBeLessThanOrEqual(POOR * seeds.length);
    },
    400_000,
  );
});
