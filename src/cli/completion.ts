import type { Command } from './command.js';
import { ASKS, saidByYargs, type Shell, shellOf } from './shell.js';

/** What the shells complete by: a script of yargs, which asks the program for the words that may follow. */
export const completionCommand: Command = {
  name: 'completion',
  examples: [
    { line: 'velamen completion bash >> ~/.bashrc', says: 'from the next terminal on, the tab key completes' },
    { line: 'velamen completion zsh >> ~/.zshrc', says: 'the same for zsh' },
  ],
  about: [
    'Completes commands, options, plants, media, phases, waters, products of the catalog, and the feeds of the bench that --bench names or that stands in the current folder.',
  ],
  operands: { name: 'SHELL', says: 'bash or zsh (default: the shell that runs)', most: 1 },
  options: ['to', 'replace'],
  forms: () => ['txt'],
  async run({ operands: [named] }, io) {
    const script = await completionScript(shellOf(named ?? io.env.SHELL ?? 'bash', named !== undefined));
    return { exit: 0, forms: { txt: () => script }, warnings: [] };
  },
};

/** The script asks in the name of its own shell: zsh is told what each word means, bash the words alone. */
async function completionScript(shell: Shell): Promise<string> {
  const script = await saidByYargs(['completion'], shell, (parser) => parser.completion('completion'));
  return script.replaceAll(`velamen ${ASKS}`, `SHELL=${shell} velamen ${ASKS}`);
}
