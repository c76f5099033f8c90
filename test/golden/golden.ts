import type { Ran } from '../cli/world.js';

/** A golden file: a command line and what it must print. Expected is null in a file that holds a command line only. */
export interface Golden {
  argv: string[];
  line: string;
  expected: Ran | null;
}

/**
 * Reads `$ velamen …`, then `--- exit N`, `--- stdout`, `--- stderr` with the text between them.
 * @throws Error where the file is not of that shape.
 */
export function readGolden(text: string): Golden {
  const match = /^\$ (velamen[^\n]*)\n(?:--- exit ([0-3])\n--- stdout\n([\s\S]*?)--- stderr\n([\s\S]*))?$/.exec(text);
  if (!match) throw new Error('a golden file starts with "$ velamen …" and holds --- exit, --- stdout and --- stderr');
  const [, line, exit, stdout, stderr] = match as unknown as [string, string, string?, string?, string?];
  const expected =
    exit === undefined ? null : { exit: Number(exit) as Ran['exit'], stdout: stdout ?? '', stderr: stderr ?? '' };
  return { argv: shellWords(line).slice(1), line, expected };
}

/** The file for what a command line printed. */
export function writeGolden(line: string, ran: Ran): string {
  return `$ ${line}\n--- exit ${ran.exit}\n--- stdout\n${ran.stdout}--- stderr\n${ran.stderr}`;
}

/** Words of a command line; single and double quotes hold blanks together. */
export function shellWords(line: string): string[] {
  const words = line.match(/(?:[^\s"']+|"[^"]*"|'[^']*')+/g) ?? [];
  return words.map((word) =>
    word.replace(/"([^"]*)"|'([^']*)'/g, (_, double?: string, single?: string) => double ?? single ?? ''),
  );
}
