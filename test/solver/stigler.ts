import { readFileSync } from 'node:fs';
import type { LinearProgram } from '../../solver/index.js';

/** Stigler 1945 (J. Farm Economics 27:303). Columns in dollars a day, rows per day; requirements as in the paper (calories in thousands). */
export function stigler(): LinearProgram {
  const text = readFileSync(new URL('../reference/stigler_1945_diet.csv', import.meta.url), 'utf8');
  const [header, ...lines] = text.split('\n').filter((line) => line && !line.startsWith('#'));
  const names = header!.split(',').slice(3);
  const foods = lines.map((line) => {
    const [, food, rest] = /^"(.*?)",(?:"[^"]*"|[^,]*),(.*)$/.exec(line)!;
    return { food: food!, per: rest!.split(',').slice(1).map(Number) };
  });
  const daily = [3, 70, 0.8, 12, 5, 1.8, 2.7, 18, 75];
  return {
    columns: foods.map(({ food }) => ({ id: food, cost: 1 })),
    rows: daily.map((lower, i) => ({
      id: names[i]!,
      lower,
      terms: Object.fromEntries(foods.map(({ food, per }) => [food, per[i]!])),
    })),
  };
}
