/** Prints the table of nutrition.test.ts for a reader: `npm run nutrition`. Shelves are invented. */
import { CASES } from './shelves.js';
import { lineOf, tableText } from './table.js';

const lines = [];
for (const one of CASES) lines.push(await lineOf(one));
console.log('Elements: per nitrogen, over that of tissue that suffices (Epstein 1965): 1 is in proportion.');
console.log(tableText(lines));
