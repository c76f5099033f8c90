import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as solver from '../../solver/index.js';
import * as velamen from '../../src/index.js';
import { root } from './packed.js';
import { publicNames } from './public-names.js';

describe.each([
  ['velamen', 'src/index.ts', velamen, 60],
  ['velamen/solver', 'solver/index.ts', solver, 40],
])('the door %s', (_, file, door, most) => {
  const names = publicNames(join(root, file));
  const values = names.filter(({ isType }) => !isType).map(({ name }) => name);

  it('has few names', () => {
    expect(values.sort()).toEqual(Object.keys(door).sort());
    expect(names.length).toBeLessThanOrEqual(most);
    expect(new Set(names.map(({ name }) => name)).size).toBe(names.length);
  });

  it('says of each what it is', () => {
    expect(names.filter(({ says }) => says.length < 20).map(({ name }) => name)).toEqual([]);
  });
});
