import { atDoor } from '../../door.js';
import type { Catalog } from '../../catalog/catalog.js';
import type { Problem } from '../../problem.js';
import { problem } from '../../problem.js';
import { blank, type Draft } from '../../year/journal/entry.js';
import type { JournalAdded } from '../../year/journal/results.js';
import type { BenchFiles } from '../bench-files.js';
import type { Collected } from '../collected.js';
import { collecting } from '../collecting.js';
import { dashed } from '../options/option.js';
import { shippedCatalog } from '../shipped-catalog.js';
import { made, type Wishes } from '../wishes.js';
import { batchEntry } from './batch-entry.js';
import { jarsEntry } from './jars-entry.js';
import { standardEntry } from './standard-entry.js';
import { potEntry, potStands } from './pot-entry.js';
import { scaleOfBench } from './scale.js';
import { stockAfter } from './stock-after.js';

/** An entry that is ready to be written, once its number is known. */
export interface ReadyEntry {
  result: Omit<JournalAdded, 'entry'>;
  warnings: readonly Problem[];
}

/** Wishes that only one sort of entry reads; the first of each list asks for it. */
const ONLY = {
  bought: ['bought', 'paid'],
  counted: ['counted'],
  standard: ['standard', 'reads'],
  pot: ['pot', 'holds', 'fed'],
  batch: ['sheet', 'recipe', 'used', 'mix', 'measured', 'ph', 'plants'],
} as const satisfies Record<string, readonly (keyof Wishes)[]>;
type Sort = keyof typeof ONLY;

/**
 * An entry of the journal from what was done: a batch (`sheet`, `feed` or `recipe`, with what was really used, its readings, temperature, pH),
 * packs `bought`, jars `counted`, or the pen in a `standard`. It is written by `withEntry` or `lineOf` of the room
 * of the journal. @param today the day where nobody says another, `2026-11-28`
 * @throws Refusal with every problem of bench, shelf, journal and wishes
 */
export async function entryFor(
  files: BenchFiles,
  wishes: Wishes,
  today: string,
  catalog: Catalog = shippedCatalog(),
): Promise<ReadyEntry> {
  const collected = collecting(files, wishes);
  const sort = sortOf(wishes, collected);
  if (sort === 'batch' && made(wishes, NAMING_A_BATCH).length === 0) collected.add(nothingToAdd());
  const date = collected.wish(wishes, 'on') ?? today;
  const note = collected.wish(wishes, 'note') ?? '';
  const begun = (kind: Draft['kind']): Draft => ({ ...blank(kind, date), note });
  const of = { files, wishes, catalog, collected, begun };
  const draft =
    sort === 'batch'
      ? await batchEntry(of)
      : sort === 'bought' || sort === 'counted'
        ? jarsEntry(sort, of)
        : sort === 'standard'
          ? standardEntry(of)
          : potEntry(of);
  const { reading, low, high } = draft;
  const within = reading === null || low === null || high === null ? null : reading >= low && reading <= high;
  return {
    result: {
      status: 'added',
      file: files.journal?.name ?? files.journalPlace ?? 'journal.csv',
      draft,
      stock: stockAfter(files, draft, draft.items),
      within,
      undone: null,
      stands: draft.kind === 'pot' ? potStands(files, draft) : null,
      scale: (wishes.scale === undefined ? undefined : collected.wish(wishes, 'scale')) ?? scaleOfBench(files, catalog),
    },
    warnings: [...collected.problems],
  };
}

/** What tells which batch it was; a bench with one feed must name it too, so that nothing is written by a slip. */
const NAMING_A_BATCH = ['sheet', 'feed', 'recipe'] as const;

const nothingToAdd = (): Problem =>
  problem(
    'nothing-to-add',
    {},
    'nothing to add',
    'a batch, or what was bought, counted or read',
    atDoor({
      typed:
        'Name the batch with --sheet CODE, --feed NAME or --recipe "…"; or say --bought, --counted, or --standard with --reads.',
      page: 'Say what was bought or counted; a can is written down at the end of its steps in Sink.',
    }),
  );

/** Which sort is meant; what belongs to another is refused beside it. */
function sortOf(wishes: Wishes, collected: Collected): Sort {
  const asked = (Object.keys(ONLY) as Sort[]).filter((sort) => made(wishes, [ONLY[sort][0]]).length > 0);
  const sort = asked.find((one) => one !== 'batch') ?? 'batch';
  for (const other of (Object.keys(ONLY) as Sort[]).filter((one) => one !== sort))
    for (const key of made(wishes, ONLY[other]))
      collected.add(
        problem(
          'two-entries',
          { field: dashed(key) },
          `${dashed(key)} beside ${sort === 'batch' ? 'a batch' : dashed(ONLY[sort][0])}`,
          'one thing for each entry',
          `Leave ${dashed(key)} out, and add it as an entry of its own.`,
        ),
      );
  return sort;
}
