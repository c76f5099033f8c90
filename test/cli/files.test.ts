import { describe, expect, it } from 'vitest';
import { readText } from '../../src/files/index.js';
import { decode } from '../../src/files/index.js';
import { Refusal } from '../../src/problem.js';
import { folder } from './world.js';

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
