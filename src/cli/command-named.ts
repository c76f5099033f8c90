import { nearest, problem, Refusal } from '../problem.js';
import type { Command } from './command.js';
import { COMMANDS } from './commands.js';

/** The command of that name, loaded. @throws Refusal for an unknown one, with the nearest */
export async function commandNamed(name: string): Promise<Command> {
  const command = COMMANDS.find((c) => c.name === name);
  if (command) return command.load();
  const guess = nearest(
    name,
    COMMANDS.map((c) => c.name),
    1,
  )[0];
  if (name.startsWith('-')) {
    throw new Refusal([
      problem(
        'command-first',
        {},
        `"${name}"`,
        'a command first',
        'For example `velamen blend --json`; `velamen -h` lists the commands.',
      ),
    ]);
  }
  const fix = guess === undefined ? '`velamen -h` lists them.' : `Did you mean \`velamen ${guess}\`?`;
  throw new Refusal([problem('unknown-command', {}, `"${name}"`, 'a command', fix)]);
}
