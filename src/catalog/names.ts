import { byName, identityOf } from '../units/index.js';
import { type Checked, nearest, type Problem, problem, type Where } from '../problem.js';

/** Anything that can be asked for by id, name or synonym. */
export interface Named {
  readonly id: string;
  readonly name: string;
  synonyms: readonly string[];
}

/**
 * The row that a name means: its id, name or a synonym, blind to case, spaces, dashes and a plural s.
 * Otherwise a Problem with the nearest names, or with all of them where none is near.
 * @param kind what is looked for, with its article: `a medium`
 */
export function findNamed<T extends Named>(wanted: string, rows: readonly T[], kind: string, where: Where): Checked<T> {
  const key = plain(wanted);
  const found =
    byName(rows, wanted, (row) => row.id) ??
    rows.find((row) => plain(row.id) === key) ??
    rows.find((row) => namesOf(row).some((name) => plain(name) === key)) ??
    rows.find((row) => namesOf(row).some((name) => singular(plain(name)) === singular(key)));
  if (found) return { ok: true, value: found, warnings: [] };
  return { ok: false, problems: [unknownName(wanted, rows, kind, where)] };
}

/** Two rows that answer to one name are a Problem at the second. */
export function sharedNames(rows: readonly (Named & { where: Where })[]): Problem[] {
  const owners = new Map<string, Named>();
  const problems: Problem[] = [];
  for (const row of rows) {
    for (const name of namesOf(row)) {
      const owner = owners.get(plain(name));
      if (owner && owner !== row) {
        problems.push(
          problem(
            'name-shared',
            row.where,
            `"${name}" for both ${owner.id} and ${row.id}`,
            'each name for one row',
            'Take it out of one of them.',
          ),
        );
      }
      owners.set(plain(name), owner ?? row);
    }
  }
  return problems;
}

/** The refusal of a name that no row answers to. */
export function unknownName(wanted: string, rows: readonly Named[], kind: string, where: Where): Problem {
  return problem('name-unknown', where, `"${wanted}"`, kind, guessNames(wanted, rows));
}

function guessNames(wanted: string, rows: readonly Named[]): string {
  const ids = new Map(rows.flatMap((row) => namesOf(row).map((name): [string, string] => [name, row.id])));
  const near = wanted.length > 60 ? [] : nearest(wanted, ids.keys(), 5);
  const guesses = [...new Set(near.map((name) => ids.get(name)!))].slice(0, 3);
  if (guesses.length > 0) return `Did you mean ${guesses.join(' or ')}?`;
  return rows.length > 0 ? `Known: ${rows.map((row) => row.id).join(', ')}.` : 'None are known.';
}

const namesOf = (row: Named): string[] => [row.id, row.name, ...row.synonyms];
const plain = (name: string): string =>
  identityOf(name)
    .replace(/[\s_-]+/g, ' ')
    .trim();
const singular = (name: string): string => name.replace(/(?<=..[^s])s$/, '');
