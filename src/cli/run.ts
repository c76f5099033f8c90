import { version } from '../../package.json';
import { nearest, type Problem, problem, Refusal } from '../problem.js';
import type { Command, Given, Outcome } from './command.js';
import { COMMANDS } from './commands.js';
import { IN_A_FILE, type Io, textOptions } from './io.js';
import { jsonText } from '../report/json-text.js';
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

async function commandNamed(name: string): Promise<Command> {
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

/** Prints what was found, and writes the files that were asked for: all of them, or none. */
async function answer({ exit, warnings, forms }: Outcome, { outputs }: Given, io: Io): Promise<ExitCode> {
  const notes: Problem[] = [...warnings];
  if (outputs.files.length > 0) {
    const { targetProblems } = await import('./targets.js');
    const { marked, writeOut } = await import('./write-out.js');
    const files = [];
    for (const { path, form } of outputs.files) {
      const content = await forms[form]?.(IN_A_FILE);
      if (content === undefined) notes.push(notMade(path));
      else files.push({ path, content: marked(content, form) });
    }
    const unable = targetProblems(outputs, io);
    if (unable.length > 0) throw new Refusal(unable);
    for (const { path, content } of files) writeOut(path, content, io.cwd);
  }
  io.stderr(problemText(notes));
  // a form that cannot be had of what was found is answered with the reason, in words
  const text = await (forms[outputs.print] ?? forms.txt!)(textOptions(io));
  io.stdout(String(text));
  return exit;
}

const notMade = (path: string): Problem => ({
  ...problem('not-written', { file: path }, 'nothing to write into it', 'an answer of that form', 'See below why.'),
  severity: 'warning',
});

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
