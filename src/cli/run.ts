import { version } from '../../package.json';
import { nearest, problem, Refusal } from '../problem.js';
import { renderCsv } from '../report/csv.js';
import { renderHtml } from '../report/html.js';
import { renderText } from '../report/text.js';
import { readArguments } from './arguments.js';
import type { Command, Given, Outcome } from './command.js';
import { COMMANDS } from './commands.js';
import { commandHelp, overview } from './help.js';
import { type Io, textOptions } from './io.js';
import { jsonText } from './json.js';
import { problemText, refusedObject } from './refuse.js';

/** 0 done · 1 a fault of ours · 2 input or usage refused · 3 what was asked cannot be met. */
export type ExitCode = 0 | 1 | 2 | 3;

/** Runs one command line to its exit code. Results go to stdout, messages to stderr; nothing is thrown. */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const name = argv[0] ?? '';
  try {
    if (name === '' || name === '-h' || name === '--help') return say(io, overview(COMMANDS, version));
    if (name === '--version') return say(io, `${version}\n`);
    const command = commandNamed(name);
    if (argv.some((word) => word === '-h' || word === '--help')) return say(io, commandHelp(command));
    const given = readArguments(command, argv.slice(1));
    const outcome = await command.run(given, io);
    io.stderr(problemText(outcome.warnings));
    io.stdout(resultText(outcome, given, io));
    return outcome.exit;
  } catch (fault) {
    return fault instanceof Refusal ? refuse(fault, name, argv, io) : ourFault(fault, io);
  }
}

function say(io: Io, text: string): ExitCode {
  io.stdout(text);
  return 0;
}

function commandNamed(name: string): Command {
  const command = COMMANDS.find((c) => c.name === name);
  if (command) return command;
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

function resultText(outcome: Outcome, given: Given, io: Io): string {
  if ('text' in outcome) return outcome.text;
  if (given.flag('json')) return jsonText(outcome.json);
  if (given.flag('csv')) return outcome.sheets.map(renderCsv).join('\r\n');
  if (given.flag('html')) return renderHtml(outcome.sheets);
  return outcome.sheets.map((sheet) => renderText(sheet, textOptions(io))).join('\n\n');
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
