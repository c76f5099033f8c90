import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { appendLines, changeText, placeProblem, readText, writeFiles } from '../../src/files/index.js';
import { home, refused, strays } from './world.js';

const here = home();
const put = (name: string, text = 'old'): string => {
  const path = join(here, name);
  writeFileSync(path, text);
  return path;
};
const text = (path: string): string => readFileSync(path, 'utf8');

describe('writing', () => {
  it('replaces in one step and keeps rights, owner and links', () => {
    const path = put('a.txt');
    chmodSync(path, 0o640);
    const root = process.getuid?.() === 0;
    if (root) chownSync(path, 1234, 4321);
    symlinkSync('a.txt', join(here, 'link.txt'));
    writeFiles([{ path: 'link.txt', content: 'new' }], here);
    expect(text(path)).toBe('new');
    expect(lstatSync(join(here, 'link.txt')).isSymbolicLink()).toBe(true);
    const { mode, uid, gid } = statSync(path);
    expect(mode & 0o777).toBe(0o640);
    if (root) expect([uid, gid]).toEqual([1234, 4321]);
    expect(strays(here)).toEqual([]);
  });

  it('writes through a link that leads to nothing yet', () => {
    symlinkSync('later.txt', join(here, 'to-later.txt'));
    writeFiles([{ path: 'to-later.txt', content: 'x' }], here);
    expect(text(join(here, 'later.txt'))).toBe('x');
  });

  it('keeps what stood there where that is asked for, and only then', () => {
    put('kept.csv', 'one');
    writeFiles([{ path: 'kept.csv', content: 'two', keep: true }], here);
    expect(text(join(here, 'kept.csv.before'))).toBe('one');
    put('plain.csv', 'one');
    writeFiles([{ path: 'plain.csv', content: 'two' }], here);
    expect(existsSync(join(here, 'plain.csv.before'))).toBe(false);
  });

  it('writes all files or none', () => {
    const first = put('first.txt');
    mkdirSync(join(here, 'folder'));
    expect(
      refused(() =>
        writeFiles(
          [
            { path: 'first.txt', content: 'new' },
            { path: 'new.txt', content: 'new' },
            { path: 'folder', content: 'new' },
          ],
          here,
        ),
      ),
    ).toMatchObject({ code: 'cannot-write', where: { file: 'folder' }, found: 'a folder of that name' });
    expect(text(first)).toBe('old');
    expect(existsSync(join(here, 'new.txt'))).toBe(false);
    expect(strays(here)).toEqual([]);
  });

  it('leaves a file alone that may not be written to', () => {
    const path = put('read-only.txt');
    chmodSync(path, 0o444);
    for (const work of [
      () => writeFiles([{ path, content: 'new' }], here),
      () => changeText(path, () => 'new', here),
      () => appendLines(path, { head: [], lines: ['new'], isWhole: () => true }, here),
    ]) {
      expect(refused(work)).toMatchObject({ code: 'cannot-write', found: 'a file that may not be written to' });
      expect(text(path)).toBe('old');
    }
    expect(strays(here)).toEqual([]);
  });

  it.each([
    ['gone/x.txt', 'a folder that is not there'],
    ['a.txt/x.txt', 'a file where a folder should be'],
    [`${'n'.repeat(300)}.txt`, 'a name that is too long'],
    ['nul\u0000.txt', 'a name that no disk can hold'],
    ['loop', 'a loop of links'],
    ['fifo', 'a pipe or a device'],
    ['/dev/full', 'a pipe or a device'],
  ])('refuses %s', (path, found) => {
    put('a.txt');
    if (path === 'loop') {
      symlinkSync('loop-2', join(here, 'loop'));
      symlinkSync('loop', join(here, 'loop-2'));
    }
    if (path === 'fifo') execFileSync('mkfifo', [join(here, 'fifo')]);
    expect(refused(() => writeFiles([{ path, content: '' }], here))).toMatchObject({ code: 'cannot-write', found });
    expect(placeProblem(path, here)).toMatchObject({ code: 'cannot-write', found });
  });

  it('changes a text to what stands there when it is replaced, not to what once was read', () => {
    const path = put('moving.csv', 'a');
    let calls = 0;
    changeText(
      'moving.csv',
      (now) => {
        calls += 1;
        // an editor saves while the change is thought out
        if (calls === 1) writeFileSync(path, `${now}, from the editor`);
        return `${now}, ours`;
      },
      here,
    );
    expect(text(path)).toBe('a, from the editor, ours');
  });

  it('keeps a byte-order mark, and writes nothing where nothing changes', () => {
    const path = put('mark.csv', '\uFEFFid\n');
    changeText(path, (now) => now.replace('id', 'name'), here);
    expect(text(path)).toBe('\uFEFFname\n');
    const { ino } = statSync(path);
    changeText(path, (now) => now, here);
    expect(statSync(path).ino).toBe(ino);
  });
});

describe('reading', () => {
  it.each(['/dev/zero', '/dev/tty', 'pipe'])('does not begin to read %s', (path) => {
    if (path === 'pipe') execFileSync('mkfifo', [join(here, 'pipe')]);
    expect(refused(() => readText(path, here))).toMatchObject({ code: 'not-readable' });
  });

  it.each([
    ['gone.csv', 'no-such-file'],
    ['x'.repeat(400), 'not-readable'],
    ['b\u0000.csv', 'not-readable'],
    ['.', 'not-a-file'],
  ])('refuses %s', (path, code) => {
    expect(refused(() => readText(path, here)).code).toBe(code);
  });

  it('refuses what is larger than any text of a bench', () => {
    const path = put('large.csv', '');
    execFileSync('truncate', ['-s', '80M', path]);
    expect(refused(() => readText(path, here))).toMatchObject({ code: 'file-too-large', found: 'a file of 80 MB' });
    rmSync(path);
  });
});

describe('appending', () => {
  const lines = { head: ['when,what'], lines: ['1,fed'], isWhole: (line: string) => line.split(',').length === 2 };

  it('begins a new file with its head, and an empty one too', () => {
    appendLines('new.csv', lines, here);
    appendLines('new.csv', lines, here);
    expect(text(join(here, 'new.csv'))).toBe('when,what\n1,fed\n1,fed\n');
    put('empty.csv', '');
    appendLines('empty.csv', lines, here);
    expect(text(join(here, 'empty.csv'))).toBe('when,what\n1,fed\n');
  });

  it('ends a whole last line that an editor left open, and cuts off half a one', () => {
    put('open.csv', 'when,what\n0,fed');
    expect(appendLines('open.csv', lines, here)).toBeNull();
    expect(text(join(here, 'open.csv'))).toBe('when,what\n0,fed\n1,fed\n');
    put('half.csv', 'when,what\n0');
    expect(appendLines('half.csv', lines, here)).toBe('0');
    expect(text(join(here, 'half.csv'))).toBe('when,what\n1,fed\n');
  });

  it('finds the beginning of a last line however long it is', () => {
    put('long.csv', `when,what\n${'é'.repeat(9000)}`);
    expect(appendLines('long.csv', lines, here)).toHaveLength(9000);
    expect(text(join(here, 'long.csv'))).toBe('when,what\n1,fed\n');
  });
});
