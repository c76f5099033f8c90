import { describe, expect, it } from 'vitest';
import { keysAt, withKey, withValue, writtenAt } from '../../src/catalog/edit-bench.js';

const BENCH = `# Our bench
name: Fern Street   # since spring
water: { use: rain }
kit: { spoons: [1 tsp, 1/4 tsp], scale: 0.01 g }
pen:
feeds:
  moss:
    plants: pleurothallid  # the small ones
    medium: sphagnum
    strength: 80 %

  bark: { plants: phalaenopsis, medium: bark }
# the end
`;

describe('one value of bench.yaml changed, every other character kept', () => {
  it.each([
    ['a plain value', ['name'], 'Oak Street', ['name: Fern Street  ', 'name: Oak Street  ']],
    ['a value with a comment behind', ['feeds', 'moss', 'plants'], 'fern', ['pleurothallid', 'fern']],
    ['a map on one line', ['kit', 'spoons'], '[1/8 tsp]', ['[1 tsp, 1/4 tsp]', '[1/8 tsp]']],
    ['a key that is empty', ['pen'], '{ scale: 500 }', ['pen:\n', 'pen: { scale: 500 }\n']],
    ['a key more on a line', ['feeds', 'bark', 'phase'], 'bloom', ['medium: bark }', 'medium: bark, phase: bloom }']],
    ['a key more in a block', ['feeds', 'moss', 'batch'], '4 L', ['80 %\n', '80 %\n    batch: 4 L\n']],
    ['a map more', ['feeds', 'moss', 'rules'], '["NH4 <= 0 * N"]', ['80 %\n', '80 %\n    rules: ["NH4 <= 0 * N"]\n']],
    ['a key out of a line', ['kit', 'scale'], null, [', scale: 0.01 g', '']],
    ['a key out of a block', ['feeds', 'moss', 'medium'], null, ['    medium: sphagnum\n', '']],
    ['a whole feed out', ['feeds', 'bark'], null, ['  bark: { plants: phalaenopsis, medium: bark }\n', '']],
  ] as const)('%s', (_, path, value, [from, to]) => {
    for (const text of [BENCH, BENCH.replaceAll('\n', '\r\n')]) {
      const ends = text.includes('\r') ? (part: string) => part.replaceAll('\n', '\r\n') : (part: string) => part;
      expect(withValue(text, path, value)).toBe(text.replace(ends(from), () => ends(to)));
    }
  });

  it('adds a feed, and to a text without a last line end', () => {
    expect(withValue(BENCH.trimEnd(), ['feeds', 'ferns'], '{ plants: fern, medium: coir }')).toContain(
      '  bark: { plants: phalaenopsis, medium: bark }\n  ferns: { plants: fern, medium: coir }\n',
    );
    expect(withValue('water: rain', ['pen'], 'EC')).toBe('water: rain\npen: EC\n');
    expect(withValue('water: rain\n', ['kit', 'scale'], '0.01 g')).toBe('water: rain\nkit: { scale: 0.01 g }\n');
  });

  it('says that it cannot, rather than spoil a text', () => {
    for (const [text, path, value] of [
      ['name: [a', ['name'], 'b'],
      ['- a\n- b\n', ['name'], 'b'],
      ['name: a\n', ['name'], '[b'],
      ['name: a\n', ['name', 'deep'], 'b'],
    ] as const)
      expect(withValue(text, path, value), text).toBeNull();
  });

  it('calls a feed otherwise, but never like another', () => {
    expect(withKey(BENCH, ['feeds', 'moss'], 'moss, wet')).toBe(BENCH.replace('  moss:', '  "moss, wet":'));
    expect(withKey(BENCH, ['feeds', 'bark'], 'oak')).toBe(BENCH.replace('  bark:', '  oak:'));
    expect(withKey(BENCH, ['feeds', 'bark'], 'moss')).toBeNull();
    expect(withKey(BENCH, ['feeds', 'none'], 'oak')).toBeNull();
  });

  it('tells what is written', () => {
    expect(writtenAt(BENCH, ['feeds', 'moss', 'strength'])).toBe('80 %');
    expect(writtenAt(BENCH, ['kit', 'spoons'])).toBe('[1 tsp, 1/4 tsp]');
    expect(writtenAt(BENCH, ['pen'])).toBe('');
    expect(keysAt(BENCH, ['feeds'])).toEqual(['moss', 'bark']);
  });
});
