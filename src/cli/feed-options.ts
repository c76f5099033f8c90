import type { OptionKey } from '../desk/options/table.js';

/** Which bench, feed, shelf and water. */
export const A_FEED = [
  'bench',
  'feed',
  'plants',
  'medium',
  'phase',
  'strength',
  'shelf',
  'water',
  'currency',
  'nh4',
  'rule',
] as const satisfies readonly OptionKey[];

/** What changes on the shelf. */
export const A_SHELF = ['with', 'without'] as const satisfies readonly OptionKey[];
