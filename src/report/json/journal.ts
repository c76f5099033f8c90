import type * as z from 'zod';
import type { JournalAdded, JournalCost, JournalPots, JournalShown, JournalStock } from '../../year/journal/results.js';
import type {
  journalCostShape,
  journalEntryShape,
  journalPotShape,
  journalShape,
  journalStockShape,
} from '../journal-shapes.js';

type Print<Shape extends z.ZodType> = z.infer<Shape>;
import { driftSays, potSays } from '../says/journal.js';

/** Lists that are read only, as lists of their own. */
const own = <T>(value: unknown): T => structuredClone(value) as T;

/** What `journal add` and `journal undo --json` print. */
export const journalEntryJson = (result: JournalAdded): Print<typeof journalEntryShape> =>
  own({
    schema: 'velamen.journal-entry/1',
    ...result,
    stands: result.stands && { ...result.stands, sentence: potSays(result.stands, result.scale) },
  });

/** What `journal show --json` prints. */
export const journalJson = (result: JournalShown): Print<typeof journalShape> =>
  own({ schema: 'velamen.journal/1', ...result, drift: { ...result.drift, sentence: driftSays(result.drift) } });

/** What `journal stock --json` prints. */
export const journalStockJson = (result: JournalStock): Print<typeof journalStockShape> =>
  own({ schema: 'velamen.journal-stock/1', ...result });

/** What `journal cost --json` prints. */
export const journalCostJson = (result: JournalCost): Print<typeof journalCostShape> =>
  own({ schema: 'velamen.journal-cost/1', ...result });

/** What `journal pot --json` prints. */
export const journalPotJson = (result: JournalPots): Print<typeof journalPotShape> =>
  own({
    schema: 'velamen.journal-pot/1',
    ...result,
    pots: result.pots.map((pot) => ({ ...pot, sentence: potSays(pot, result.scale) })),
  });
