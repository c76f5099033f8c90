#!/usr/bin/env node
import { setFlagsFromString } from 'node:v8';
import { faultOf } from '../files/faults.js';
import { problemText } from './refuse.js';
import { run } from './run.js';
import { personAt } from './terminal.js';

// HiGHS runs for a second or two, and compiling it twice takes longer than that: its optimised code is made for what is long in use only
setFlagsFromString('--wasm-tiering-budget=1000000000');

// a reader that closes early (`velamen labels | head`) is no fault
process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
  if (fault.code === 'EPIPE') process.exit(0);
  process.stderr.write(problemText([faultOf('the output', fault.code ?? fault.message, 'write')]));
  process.exit(2);
});

// where refusals cannot be told, the exit code still tells that there are some
process.stderr.on('error', () => {});

/** The folder the grower is in; it may have been removed under them. */
function here(): string {
  try {
    return process.cwd();
  } catch {
    process.stderr.write(problemText([faultOf('.', 'ENOENT', 'write')]));
    process.exit(2);
  }
}

// asked is only who sees the question and can answer it
const person =
  process.stdin.isTTY === true && process.stderr.isTTY === true ? personAt(process.stdin, process.stderr) : null;

process.exitCode = await run(process.argv.slice(2), {
  stdout: (text) => process.stdout.write(text),
  stderr: (text) => process.stderr.write(text),
  env: process.env,
  cwd: here(),
  isTTY: process.stdout.isTTY === true,
  ...(process.stdout.columns ? { columns: process.stdout.columns } : {}),
  now: () => new Date(),
  ...(person ? { ask: person.ask } : {}),
});
person?.giveBack();
