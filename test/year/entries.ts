import * as fc from 'fast-check';
import { blank, type Draft } from '../../src/year/journal/entry.js';
import { withEntry } from '../../src/year/journal/write.js';

/** The text of a journal with these drafts, written one after the other. */
export const journalOf = (drafts: readonly Draft[]): string =>
  drafts.reduce((text, draft) => withEntry(text, draft, 'journal.csv').text, '');

const PRODUCTS = ['base', 'cal; (mag)', '=kelp', '50% nitrate'] as const;
const amount = fc.integer({ min: 1, max: 99_999 }).map((n) => n / 1000);

const items = fc
  .subarray([...PRODUCTS], { minLength: 1 })
  .chain((ids) =>
    fc
      .tuple(...ids.map(() => amount))
      .map((amounts) =>
        ids.map((id, i) => ({ id, amount: amounts[i]!, unit: 'g' as const, tool: i % 2 === 0 ? 'spoon' : null })),
      ),
  );

/** Batches, packs and counts, and undoings of any earlier entry, undoings too. */
export const drafts = fc
  .array(fc.tuple(fc.constantFrom('batch', 'batch', 'bought', 'counted', 'undo' as const), items, fc.nat()), {
    minLength: 1,
    maxLength: 25,
  })
  .map((steps) =>
    steps.map(([kind, used, any], i): Draft => {
      if (kind === 'undo' && i > 0) return { ...blank('undo', '2026-03-01'), of: 1 + (any % i) };
      return { ...blank(kind === 'undo' ? 'batch' : kind, '2026-03-01'), items: used, feed: 'moss', litres: 4 };
    }),
  );
