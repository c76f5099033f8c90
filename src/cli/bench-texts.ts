import { join } from 'node:path';
import type { BenchFiles, TextFile } from '../desk/bench-files.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Given } from './command.js';
import { isFile, isFolder, readText } from './files.js';
import type { Io } from './io.js';

/** The texts that --bench, --shelf, --market and --against name, or that stand in the current folder; with what went wrong in reading them. */
export function benchTexts(given: Given, io: Io, already: readonly Problem[] = []): BenchFiles {
  const problems: Problem[] = [...already];
  const read = (path: string): TextFile | null => {
    try {
      return readText(path, io.cwd);
    } catch (fault) {
      if (!(fault instanceof Refusal)) throw fault;
      problems.push(...fault.problems);
      return null;
    }
  };
  const named = (option: string): string | undefined => (given.takes(option) ? given.text(option) : undefined);
  const readNamed = (option: string, inFolder = (path: string) => path) => {
    const path = named(option);
    return path === undefined ? {} : { [option]: read(inFolder(path)) };
  };
  const shelfPlace = shelfPath(given);
  return {
    ...benchText(named('bench'), io, read, problems),
    ...(named('shelf') === undefined && !isFile(shelfPlace, io.cwd) ? {} : { shelf: read(shelfPlace) }),
    ...readNamed('market'),
    ...readNamed('against', (path) => (isFolder(path, io.cwd) ? join(path, 'shelf.csv') : path)),
    shelfPlace,
    problems,
  };
}

/** Where the shelf stands, as the grower would write it. */
export const shelfPath = (given: Given): string => given.text('shelf') ?? join(given.text('bench') ?? '', 'shelf.csv');

/** bench.yaml of the folder that was named, or of the current one where it is there. */
function benchText(
  folder: string | undefined,
  io: Io,
  read: (path: string) => TextFile | null,
  problems: Problem[],
): Pick<BenchFiles, 'bench'> {
  if (folder !== undefined && !isFolder(folder, io.cwd)) {
    problems.push(
      problem(
        'no-such-folder',
        { field: '--bench' },
        `"${folder}"`,
        'a folder with bench.yaml',
        'Check the name and the folder you are in.',
      ),
    );
    return { bench: null };
  }
  const file = join(folder ?? '', 'bench.yaml');
  return folder === undefined && !isFile(file, io.cwd) ? {} : { bench: read(file) };
}
