import { parseGallon } from './gallon.js';
import { parseKit } from './kit.js';
import type { Option } from './option.js';

/** Options that tell of a bench which is not written yet: rows of the table of wishes. */
export const START_WISHES = {
  label: {
    value: 'TEXT',
    says: 'what a label prints, in words or as a file, or a plain salt by its name: "12-6-12, total nitrogen 12 % …"',
    repeatable: true,
  },
  add: {
    value: 'TEXT',
    says: 'put one product more on the shelf, as its label prints it (words or a file), or a plain salt by its name',
  },
  kit: {
    value: 'TOOLS',
    says: 'what you measure with: "1 tsp, 1/4 tsp, 0.1 g scale, 5 mL syringe, 2 L jug"',
    usual: 'what most kitchens hold',
    read: parseKit,
  },
  gallon: {
    value: 'WHICH',
    says: 'which gallon is meant where none is named: us or imperial',
    read: parseGallon,
    choices: ['us', 'imperial'],
  },
} as const satisfies Record<string, Option>;
