import { parse } from 'csv-parse/sync';

/** What a run left behind. */
export interface Left {
  exit: number | null;
  stdout: string;
  stderr: string;
  /** Of the processor: a clock would judge what else the machine does. */
  seconds: number;
}

/** No case takes longer. */
const TOO_LONG = 20;

/** What is wrong with a run, whatever was asked; empty where nothing is. */
export function faultsOf(argv: readonly string[], input: string, { exit, stdout, stderr, seconds }: Left): string[] {
  // the packed page is a program, whose code says such things
  const told = argv[0] === 'page' && exit === 0 ? '' : stdout;
  const both = `${told}\n${stderr}`;
  const says = (word: RegExp): boolean => word.test(both) && !word.test(input);
  return [
    ...(exit === 0 || exit === 2 || exit === 3 ? [] : [`exit ${exit}: ${stderr.slice(0, 200)}`]),
    ...(exit === 2 && stderr.trim() === '' ? ['refused without a word'] : []),
    ...(/\n\s+at .+:\d+:\d+/.test(both) ? ['a stack'] : []),
    ...[/\bNaN\b/, /\bundefined\b/, /-?\bInfinity\b/, /\[object /].filter(says).map((word) => `it says ${word.source}`),
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    ...(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/.test(both)
      ? ['control marks']
      : []),
    ...(seconds > TOO_LONG ? [`${Math.round(seconds)} s`] : []),
    ...formFaults(argv, exit, stdout),
  ];
}

function formFaults(argv: readonly string[], exit: number | null, stdout: string): string[] {
  // help is text whatever else is asked
  if (stdout === '' || argv.includes('--help') || argv.includes('-h')) return [];
  try {
    if (argv.includes('--json') && argv[0] !== 'schema') JSON.parse(stdout);
    if (exit === 2 || !argv.includes('--csv')) return [];
    const rows: string[][] = parse(stdout, { relax_column_count: true, comment: '#', skip_empty_lines: true });
    const run = rows.flat().filter((cell) => /^[=+@\t\r]|^-(?![\d.]+(e-?\d+)?$)/i.test(cell));
    return run.length === 0 ? [] : [`a cell that a spreadsheet runs: ${run[0]!.slice(0, 40)}`];
  } catch (fault) {
    return [`not of its form: ${fault instanceof Error ? fault.message.slice(0, 120) : ''}`];
  }
}
