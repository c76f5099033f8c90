import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readText } from '../../src/files/index.js';
import { decode } from '../../src/files/index.js';
import { Refusal } from '../../src/problem.js';
import { folder, velamen } from './world.js';

const refusal = (work: () => unknown): Refusal => {
  try {
    work();
  } catch (fault) {
    if (fault instanceof Refusal) return fault;
    throw fault;
  }
  throw new Error('was not refused');
};

describe('reading a file', () => {
  it('drops a byte-order mark and keeps every letter', () => {
    expect(decode(new Uint8Array([0xef, 0xbb, 0xbf, 0xc3, 0xa9]), 'a.csv')).toBe('é');
  });

  it('names the line of a Latin-1 letter and shows it', () => {
    const found = refusal(() => decode(Buffer.from('id,name\na,b\nc,caf\u00e9\n', 'latin1'), 'shelf.csv'));
    expect(found.problems).toHaveLength(1);
    expect(found.problems[0]).toMatchObject({ code: 'not-utf-8', where: { file: 'shelf.csv', line: 3 } });
    expect(found.problems[0]?.found).toContain('c,café');
  });

  it('knows a UTF-16 file', () => {
    expect(refusal(() => decode(Buffer.from('\ufeffid', 'utf16le'), 's.csv')).problems[0]?.found).toContain('UTF-16');
  });

  it('says what is missing or a folder', () => {
    const home = folder({ 'in/x.csv': '' });
    expect(refusal(() => readText('gone.csv', home)).problems[0]).toMatchObject({
      code: 'no-such-file',
      where: { file: 'gone.csv' },
    });
    expect(refusal(() => readText('in', home)).problems[0]).toMatchObject({ code: 'not-a-file' });
    expect(readText('in/x.csv', home)).toEqual({ name: 'in/x.csv', text: '' });
  });
});

describe('a bench whose files are none', () => {
  const files = { 'mine/bench.yaml': 'water: rain\n', 'mine/shelf.csv': 'id,form,K2O\na,powder,20\n' };

  it.each(['bench.yaml', 'shelf.csv', 'journal.csv'])(
    'is refused where %s is a folder, not read as one without it',
    async (name) => {
      const { [`mine/${name}`]: _, ...others } = files as Record<string, string>;
      const home = folder(others);
      mkdirSync(join(home, 'mine', name), { recursive: true });
      const ran = await velamen(['check', '--bench', 'mine'], home);
      expect(ran.exit).toBe(2);
      expect(ran.stderr).toContain(`mine/${name}: found a folder\n    expected a file\n    Name the file inside it.`);
    },
  );

  it('is refused where its folder is a loop of links', async () => {
    const home = folder();
    symlinkSync('mine', join(home, 'other'));
    symlinkSync('other', join(home, 'mine'));
    const ran = await velamen(['check', '--bench', 'mine'], home);
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('mine: found a loop of links');
  });
});
