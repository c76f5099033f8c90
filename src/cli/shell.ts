import { problem, Refusal } from '../problem.js';

/** The shells that are helped to complete. */
const SHELLS = ['bash', 'zsh'] as const;
export type Shell = (typeof SHELLS)[number];

/** The shell of that name, or of that path where it need not be one. @throws Refusal for another */
export function shellOf(word: string, strictly: boolean): Shell {
  const shell = SHELLS.find((name) => (strictly ? word === name : word.endsWith(name)));
  if (shell === undefined && strictly)
    throw new Refusal([problem('unknown-shell', {}, `"${word}"`, 'bash or zsh', 'Name the shell that you use.')]);
  return shell ?? 'bash';
}

/** The option by which the script asks. */
export const ASKS = '--get-yargs-completions';

export type Yargs = ReturnType<typeof import('yargs')['default']>;

/** What a parser of yargs says to these words in that shell; it reads the name of the shell from the environment only. */
export async function saidByYargs(
  words: readonly string[],
  shell: Shell,
  set: (parser: Yargs) => Yargs,
): Promise<string> {
  const { default: yargs } = await import('yargs');
  const own = process.env.SHELL;
  process.env.SHELL = shell;
  try {
    const parser = set(
      yargs([...words])
        .scriptName('velamen')
        .locale('en')
        .help(false)
        .version(false)
        .exitProcess(false),
    );
    let text = '';
    parser.parse([...words], {}, (_, __, output) => {
      text = output;
    });
    return `${text}\n`;
  } finally {
    if (own === undefined) delete process.env.SHELL;
    else process.env.SHELL = own;
  }
}
