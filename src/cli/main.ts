#!/usr/bin/env node
import { run } from './run.js';

// a reader that closes early (`velamen labels | head`) is no fault
process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
  if (fault.code === 'EPIPE') process.exit(0);
  process.stderr.write(`velamen: the output could not be written: ${fault.message}\n`);
  process.exit(1);
});

process.exitCode = await run(process.argv.slice(2), {
  stdout: (text) => process.stdout.write(text),
  stderr: (text) => process.stderr.write(text),
  env: process.env,
  cwd: process.cwd(),
  isTTY: process.stdout.isTTY === true,
  ...(process.stdout.columns ? { columns: process.stdout.columns } : {}),
  now: () => new Date(),
});
