import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { appendLines, changeText, writeFiles } from '../../src/files/index.js';
import { home, refused, strays } from './world.js';

const disk = join(home(), 'disk');

/** A disk of 64 kB, where this user may mount one. */
function mounted(): boolean {
  mkdirSync(disk, { recursive: true });
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk], { stdio: 'ignore' });
  } catch {
    process.stdout.write('No leave to mount a small disk, so a full one is not tested here.\n');
    return false;
  }
  afterAll(() => execFileSync('umount', [disk]));
  return true;
}

describe.runIf(mounted())('a full disk', () => {
  const old = 'x'.repeat(20_000);
  const shelf = join(disk, 'shelf.csv');

  it('leaves every file as it was', () => {
    writeFileSync(shelf, old);
    const large = 'y'.repeat(60_000);
    for (const work of [
      () => writeFiles([{ path: shelf, content: large }], disk),
      () =>
        writeFiles(
          [
            { path: 'small.txt', content: 'z' },
            { path: 'large.txt', content: large },
          ],
          disk,
        ),
      () => changeText(shelf, () => large, disk),
      () => appendLines(shelf, { head: [], lines: [large], isWhole: () => true }, disk),
    ]) {
      expect(refused(work)).toMatchObject({ code: 'cannot-write', found: 'no room left on the disk' });
      expect(readFileSync(shelf, 'utf8')).toBe(old);
      expect(strays(disk)).toEqual([]);
      expect(() => readFileSync(join(disk, 'small.txt'))).toThrow('ENOENT');
    }
  });
});
