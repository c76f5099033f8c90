import { version } from '../../package.json';
import { Refusal } from '../problem.js';
import { jsonText } from '../report/json-text.js';
import { answer } from './answer.js';
import { commandNamed } from './command-named.js';
import { COMMANDS } from './commands.js';
import type { Io } from './io.js';
import { problemText, refusedObject } from './refuse.js';

/** 0 done · 1 a fault of ours · 2 input or usage refused · 3 what was asked cannot be met. */
export type ExitCode = 0 | 1 | 2 | 3;

/** Runs one command line to its exit code. Results go to stdout, messages to stderr; nothing is thrown. */
export async function run(argv: readonly string[], world: Omit<Io, 'inputs'>): Promise<ExitCode> {
  const io: Io = { ...world, inputs: new Set() };
  const name = argv[0] ?? '';
  try {
    if (name === '--version') return say(io, `${version}\n`);
    if (name === '' || name === '-h' || name === '--help') {
      const { overview } = await import('./overview.js');
      return say(io, overview(COMMANDS, version));
    }
    if (name === '--get-yargs-completions') {
      const { completions } = await import('./complete.js');
      return say(io, (await completions(argv.slice(1), io)).map((word) => `${word}\n`).join(''));
    }
    const command = await commandNamed(name);
    if (argv.some((word) => word === '-h' || word === '--help')) {
      const { commandHelp } = await import('./help.js');
      return say(io, commandHelp(command));
    }
    const { readArguments } = await import('./arguments.js');
    const given = readArguments(command, argv.slice(1), io);
    return await answer(await command.run(given, io), given, io);
  } catch (fault) {
    return fault instanceof Refusal ? refuse(fault, name, argv, io) : ourFault(fault, io);
  }
}

function say(io: Io, text: string): ExitCode {
  io.stdout(text);
  return 0;
}

function refuse(refusal: Refusal, name: string, argv: readonly string[], io: Io): ExitCode {
  io.stderr(problemText(refusal.problems));
  if (argv.includes('--json')) {
    const command = COMMANDS.some((c) => c.name === name) ? name : 'command';
    io.stdout(jsonText(refusedObject(command, refusal.problems)));
  }
  return 2;
}

function ourFault(fault: unknown, io: Io): ExitCode {
  const message = fault instanceof Error ? fault.message : String(fault);
  io.stderr(
    `velamen: a fault of ours, not yours: ${message.split('\n')[0]}. Please report it with the command you ran.\n`,
  );
  if (io.env.VELAMEN_DEBUG && fault instanceof Error) io.stderr(`${fault.stack}\n`);
  return 1;
}
