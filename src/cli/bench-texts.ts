import { dirname, join } from 'node:path';
import type { BenchFiles, TextFile } from '../desk/bench-files.js';
import type { Words } from '../desk/options/table.js';
import { isFile, isFolder, isThere, placeOf, readText, unseen } from '../files/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Given } from './command.js';

import type { Io } from './io.js';
import { targetProblems } from './targets.js';

/** The texts that --bench, --shelf, --market and --against name, or that stand in the current folder; with what went wrong in reading them. */
export function benchTexts({ words, outputs }: Given, io: Io, already: readonly Problem[] = []): BenchFiles {
  const problems: Problem[] = [...already];
  const read = (path: string): TextFile | null => {
    try {
      const text = readText(path, io.cwd);
      io.inputs.add(placeOf(path, io.cwd).full);
      return text;
    } catch (fault) {
      if (!(fault instanceof Refusal)) throw fault;
      problems.push(...fault.problems);
      return null;
    }
  };
  const { market, against } = words;
  const shelfPlace = shelfPath(words);
  const files = {
    ...benchText(words.bench, io, read, problems),
    ...(words.shelf === undefined && !isThere(shelfPlace, io.cwd) ? {} : { shelf: read(shelfPlace) }),
    ...(market === undefined ? {} : { market: read(market) }),
    ...(against === undefined
      ? {}
      : { against: read(isFolder(against, io.cwd) ? join(against, 'shelf.csv') : against) }),
  };
  // another shelf is none of which the journal of the bench tells
  const journal = words.shelf === undefined ? journalPath(words) : undefined;
  if (journal !== undefined && isThere(journal, io.cwd)) Object.assign(files, { journal: read(journal) });
  // told before the work: an answer is never written over what it was read from
  problems.push(...targetProblems(outputs, io));
  return { ...files, shelfPlace, journalPlace: journalPath(words), problems };
}

/** Where the shelf stands, as the grower would write it. */
export const shelfPath = ({ shelf, bench }: Words): string => shelf ?? join(bench ?? '', 'shelf.csv');

/** Where the journal of the bench stands. */
export const journalPath = ({ bench }: Words): string => join(bench ?? '', 'journal.csv');

/** bench.yaml of the folder that was named, or of the current one where it is there. */
function benchText(
  folder: string | undefined,
  io: Io,
  read: (path: string) => TextFile | null,
  problems: Problem[],
): Pick<BenchFiles, 'bench'> {
  if (folder !== undefined && !isFolder(folder, io.cwd)) {
    problems.push(
      unseen(folder, io.cwd) ??
        problem(
          'no-such-folder',
          { field: '--bench' },
          `"${folder}"`,
          'a folder with bench.yaml',
          isFile(folder, io.cwd)
            ? `Name its folder: --bench ${dirname(folder)}`
            : 'Check the name and the folder you are in.',
        ),
    );
    return { bench: null };
  }
  const file = join(folder ?? '', 'bench.yaml');
  return folder === undefined && !isThere(file, io.cwd) ? {} : { bench: read(file) };
}
