import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BENCH_CASES } from './bench-cases.js';
import { type Kind, problems, say } from './say.js';
import { SHELF_CASES } from './shelf-cases.js';
import { TABLE_CASES } from './table-cases.js';

const CASES = [...TABLE_CASES, ...SHELF_CASES, ...BENCH_CASES];

/** Refusals of size, whose files are made here. */
const LARGE: [kind: Kind, text: string, code: string][] = [
  ['shelf', `id,form,K2O\n${'x'.repeat(8_000_001)}`, 'file-too-long'],
  ['bench', `water: rain\nname: ${'x'.repeat(500_001)}\n`, 'file-too-long'],
  ['shelf', `id,form,K2O\n${'a,powder,20\n'.repeat(5001)}`, 'too-many-rows'],
  ['shelf', `id,form,K2O${',x'.repeat(200)}\na,powder,20${',1'.repeat(200)}\n`, 'too-many-columns'],
  ['shelf', `id,form,K2O\n${'a,powder,x\n'.repeat(60)}`, 'more-problems'],
  ['shelf', 7 as never, 'no-text'],
  ['shelf', `id,form,K2O,notes\na,powder,20,${'.'.repeat(50_000)}\n`, 'cell-too-long'],
  ['shelf', 'id,form,K2O\na\u200bb,powder,20\n', 'name-invisible'],
  ['shelf', 'id,form,K2O,pack\na,powder,20,1e-100 g\n', 'amount-range'],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal, medium: moss }\n  MOSS: { plants: phal, medium: moss }\n',
    'feed-twice',
  ],
  [
    'bench',
    `water: rain\nfeeds:\n${Array.from({ length: 201 }, (_, i) => `  f${i}: { plants: phal, medium: moss }\n`).join('')}`,
    'too-many-feeds',
  ],
  ['bench', `water: rain\nname: ${'['.repeat(20_000)}${']'.repeat(20_000)}\n`, 'yaml-nested'],
];

describe('what the catalog says', () => {
  it.each(CASES)('%s %j', (kind, text, said) => {
    expect(say(kind, text)).toEqual(said);
  });

  it.each(LARGE.map(([kind, text, code]) => ({ kind, text, code })))(
    '$kind: $code where the file is too much',
    ({ kind, text, code }) => {
      expect(problems(kind, text).map((p) => p.code)).toContain(code);
    },
  );

  it('has a case above for every code of the room', () => {
    const room = new URL('../../src/catalog/', import.meta.url);
    const source = readdirSync(room)
      .map((name) => readFileSync(new URL(name, room), 'utf8'))
      .join('\n');
    const codes = [...source.matchAll(/(?:\b(?:problem|warning)\(\s*|code: )'([a-z0-9-]+)'/g)].map(
      (match) => match[1]!,
    );
    const tried = new Set([
      ...CASES.flatMap(([, , said]) => said.map((line) => line.split(':')[0]!)),
      ...LARGE.map(([, , code]) => code),
    ]);
    expect(codes.length).toBeGreaterThan(50);
    expect(codes.filter((code) => !tried.has(code))).toEqual([]);
  });
});
