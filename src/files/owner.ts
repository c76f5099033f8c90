import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';

/** This process as a lock or the name of a part file tells it: machine, process, its start. Most commands write nothing and never ask. */
export function ourselves(): Owner {
  known ??= { machine: machineOf(), process: process.pid, start: startOf(process.pid) };
  return known;
}

let known: Owner | undefined;

export interface Owner {
  /** Six letters that tell this machine from others that share the folder. */
  machine: string;
  process: number;
  /** When the process began, as the operating system counts; empty where it does not say. */
  start: string;
}

/** True where the process surely is no more: it was one of this machine, and none of that number and start runs. */
export function isDead({ machine, process: number, start }: Owner): boolean {
  if (machine !== ourselves().machine) return false;
  try {
    process.kill(number, 0);
  } catch (fault) {
    return (fault as { code?: string }).code === 'ESRCH';
  }
  // its number may have been given to another since
  const now = startOf(number);
  return start !== '' && now !== '' && start !== now;
}

/** SHA-256 in hexadecimal. Loading Node's cryptography takes longer than reading a shelf, so only who writes loads it. */
export const hashOf = (text: string): string =>
  process.getBuiltinModule('node:crypto').createHash('sha256').update(text).digest('hex');

function machineOf(): string {
  return hashOf(hostname()).slice(0, 6);
}

/** Field 22 of /proc/PID/stat, counted from behind the name in brackets; empty where there is no such file. */
function startOf(number: number): string {
  try {
    const text = readFileSync(`/proc/${number}/stat`, 'latin1');
    return text.slice(text.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  } catch {
    return '';
  }
}
