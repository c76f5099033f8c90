import { atDoor } from '../../door.js';
import { problem, Refusal } from '../../problem.js';
import type { JournalText } from '../../year/journal/read.js';
import type { BenchFiles } from '../bench-files.js';
import type { Collected } from '../collected.js';

/** The journal of a bench; undefined where it is not there or could not be read. */
export const journalOf = ({ journal }: BenchFiles): JournalText | undefined => journal ?? undefined;

/** The journal that a view is of; where there is none, or nothing stands in it, what to do is told. */
export function journalNeeded(files: BenchFiles, collected: Collected): JournalText | undefined {
  if (files.journal === undefined || (files.journal && files.journal.text.trim() === '')) {
    const found = files.journal === undefined ? 'no journal.csv' : 'an empty journal.csv';
    collected.add(
      problem(
        'no-journal',
        { file: files.journalPlace ?? files.journal?.name ?? 'journal.csv' },
        found,
        'a journal with entries',
        atDoor({
          typed:
            'Begin it with what you mix next: velamen journal add --sheet CODE --reading 0.46 (the code stands on the sheet), or --feed NAME.',
          page: 'Begin it with what you mix next: at the end of its steps in Sink.',
        }),
      ),
    );
    return undefined;
  }
  return files.journal ?? undefined;
}

/** The value, or every problem at once. @throws Refusal where it is not there */
export function settled<T>(value: T | undefined, collected: Collected): T {
  collected.settle();
  if (value === undefined) throw new Refusal(collected.problems);
  return value;
}
