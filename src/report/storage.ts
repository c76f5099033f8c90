import type { Storage } from '../year/storage.js';
import { KEEPING, storageSays } from './says/season.js';
import { type Block, heading, list, table } from './sheet.js';

/** How jars are kept: what draws water, what feeds fire, and what holds for all. */
export function storageBlocks(storage: readonly Storage[]): Block[] {
  if (storage.length === 0) return [];
  return [
    heading('How the jars are kept'),
    table(
      ['product', 'draws water above', 'feeds fire'],
      storage.map((one) => [one.name === '' ? one.id : one.name, ...storageSays(one)]),
    ),
    list(KEEPING),
  ];
}
