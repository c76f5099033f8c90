import { type Problem, problem, Refusal } from '../problem.js';

/** What was being done when the file system said no. */
export type Doing = 'read' | 'write';

/**
 * A fault of the file system as the grower can mend it.
 * @throws the fault itself where it is none of the file system's
 */
export function refusalOf(name: string, fault: unknown, doing: Doing): Refusal {
  if (fault instanceof Refusal) return fault;
  const code = (fault as { code?: unknown } | null)?.code;
  if (typeof code !== 'string') throw fault;
  return new Refusal([faultOf(name, code, doing)]);
}

/** The problem behind a code of the file system (`ENOSPC`). */
export function faultOf(name: string, code: string, doing: Doing): Problem {
  const [found, fix] = FAULTS.get(code) ?? [`a fault of the file system (${code})`, 'Try another place.'];
  const where = { file: shortened(name) };
  if (doing === 'write') return problem('cannot-write', where, found, 'a place to write to', fix);
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return problem(
      'no-such-file',
      where,
      'no such file',
      'a file to read',
      'Check the name and the folder you are in.',
    );
  }
  if (code === 'EISDIR') return problem('not-a-file', where, 'a folder', 'a file', 'Name the file inside it.');
  if (code === 'EACCES' || code === 'EPERM') {
    return problem('not-readable', where, 'a file that may not be read', 'leave to read it', 'Change its permissions.');
  }
  return problem('not-readable', where, found, 'a file to read', fix);
}

/** A name that is longer than any file's may be is not repeated whole. */
const shortened = (name: string): string => (name.length <= 200 ? name : `${name.slice(0, 80)} … ${name.slice(-20)}`);

/** Codes that are ours: `no plain file` for pipes and devices, `no leave` for a file whose rights forbid writing, `owner` where it cannot be kept. */
const FAULTS: ReadonlyMap<string, readonly [found: string, fix: string]> = new Map([
  ['ENOENT', ['a folder that is not there', 'Make the folder, or name another place.']],
  ['ENOTDIR', ['a file where a folder should be', 'Name another place.']],
  ['EISDIR', ['a folder of that name', 'Name a file inside it.']],
  ['no plain file', ['a pipe or a device', 'Name a file on a disk.']],
  ['no leave', ['a file that may not be written to', 'Change its permissions, or name another file.']],
  ['owner', ['a file of another owner', 'Write to a file of your own, or ask its owner.']],
  ['EACCES', ['a place that may not be written to', 'Change its permissions, or name another place.']],
  ['EPERM', ['a place that may not be written to', 'Change its permissions, or name another place.']],
  ['EROFS', ['a disk that may only be read', 'Name a place on another disk.']],
  ['ENOSPC', ['no room left on the disk', 'Make room, or name a place on another disk.']],
  ['EDQUOT', ['no room left in your share of the disk', 'Make room, or name a place on another disk.']],
  ['EFBIG', ['a file larger than this disk holds', 'Name a place on another disk.']],
  ['ELOOP', ['a loop of links', 'Name the file itself.']],
  ['ENAMETOOLONG', ['a name that is too long', 'Name it shorter.']],
  ['EMFILE', ['too many files open at once', 'Close other programs, then try again.']],
  ['ENFILE', ['too many files open at once', 'Close other programs, then try again.']],
  ['EIO', ['a fault of the disk', 'Copy your files to another disk, then try again.']],
  ['EBUSY', ['a file in use', 'Close what uses it, then try again.']],
  ['ETXTBSY', ['a file in use', 'Close what uses it, then try again.']],
  ['ENXIO', ['a pipe or a device', 'Name a file on a disk.']],
  ['ESTALE', ['a network folder that went away', 'Connect it again, then try again.']],
  ['EINVAL', ['a name that this disk cannot hold', 'Name it with plain letters.']],
  ['EILSEQ', ['a name that this disk cannot hold', 'Name it with plain letters.']],
  ['ERR_INVALID_ARG_VALUE', ['a name that no disk can hold', 'Name it with plain letters.']],
]);
