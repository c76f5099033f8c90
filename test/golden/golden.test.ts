import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { folder, velamen } from '../cli/world.js';
import { readGolden, shellWords, writeGolden } from './golden.js';

const here = fileURLToPath(new URL('.', import.meta.url));
const root = join(here, '..', '..');
const names = readdirSync(here)
  .filter((name) => name.endsWith('.golden'))
  .sort();
/** Golden files are written by a person who reads the diff, never by a machine. */
const update = process.env.UPDATE_GOLDEN === '1' && !process.env.CI;

describe('golden', () => {
  it.each(names)('%s', async (name) => {
    const file = join(here, name);
    const golden = readGolden(readFileSync(file, 'utf8'));
    // a bench is begun in a folder of its own
    const begins = golden.argv[0] === 'start' && golden.argv[1] === 'mine';
    const ran = await velamen(golden.argv, begins ? folder() : root);
    if (update) writeFileSync(file, writeGolden(golden.line, ran));
    const kept = update ? readGolden(readFileSync(file, 'utf8')).expected : golden.expected;
    const untold = {
      exit: 1 as const,
      stdout: 'nothing expected yet: read the output, then UPDATE_GOLDEN=1\n',
      stderr: '',
    };
    expect(writeGolden(golden.line, ran)).toBe(writeGolden(golden.line, kept ?? untold));
  });

  it('are read as they are written', () => {
    const ran = { exit: 2 as const, stdout: 'a\n', stderr: 'b\nc\n' };
    expect(readGolden(writeGolden('velamen blend --mix "4 L"', ran))).toEqual({
      argv: ['blend', '--mix', '4 L'],
      line: 'velamen blend --mix "4 L"',
      expected: ran,
    });
    expect(() => readGolden('blend')).toThrow('starts with');
    expect(shellWords(`a --rule='x <= 1' "b c"d`)).toEqual(['a', '--rule=x <= 1', 'b cd']);
  });
});
