/** Where a problem was found. Lines count from 1. */
export interface Where {
  file?: string;
  line?: number;
  /** Column header, option or key the value stood under. */
  field?: string;
}

/** One refusal or warning: what was found, where, what was expected and how to mend it. */
export interface Problem {
  code: string;
  severity: 'error' | 'warning';
  where: Where;
  found: string;
  expected: string;
  fix: string;
}

/** A value together with every problem met while reading it. `value` is absent when any problem is an error. */
export type Checked<T> = { ok: true; value: T; warnings: Problem[] } | { ok: false; problems: Problem[] };

/** Thrown by the outer doors only; carries every problem at once. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map(problemLine).join('\n'));
    this.problems = problems;
  }
}

/** Builds an error-grade problem. */
export function problem(code: string, where: Where, found: string, expected: string, fix: string): Problem {
  return { code, severity: 'error', where, found, expected, fix };
}

/** Builds a warning: the input is used, and the reader is told how. */
export function warning(code: string, where: Where, found: string, expected: string, fix: string): Problem {
  return { code, severity: 'warning', where, found, expected, fix };
}

/** Wraps a value with the problems found: refused if any of them is an error. */
export function checked<T>(value: T, problems: readonly Problem[]): Checked<T> {
  return problems.some((p) => p.severity === 'error')
    ? { ok: false, problems: [...problems] }
    : { ok: true, value, warnings: [...problems] };
}

/** The value, or a Refusal with every problem. */
export function unwrap<T>(result: Checked<T>): T {
  if (result.ok) return result.value;
  throw new Refusal(result.problems);
}

/** `shelf.csv:3 (K2O): found "abc"; expected a percentage; write …` */
export function problemLine(p: Problem): string {
  if (typeof p?.where !== 'object' || p.where === null)
    throw new Refusal([problem('wrong-type', { field: 'p' }, typeof p, 'a Problem', 'See the types of the package.')]);
  const place = [p.where.file, p.where.line].filter((x) => x !== undefined).join(':');
  const field = p.where.field ? ` (${p.where.field})` : '';
  return `${place}${field}${place || field ? ': ' : ''}found ${p.found}; expected ${p.expected}. ${p.fix}`.trim();
}

/** The names nearest to a misspelt one (edit distance at most a third of its length, or another share, at least 1), nearest first. */
export function nearest(name: string, known: Iterable<string>, most = 3, share = 1 / 3): string[] {
  const wanted = name.toLowerCase();
  const limit = Math.max(1, Math.floor(wanted.length * share));
  // a difference in length is that much of a distance
  const near = (candidate: string): boolean =>
    Math.abs(candidate.length - wanted.length) <= limit || candidate.toLowerCase().includes(wanted);
  return [...known]
    .filter(near)
    .map((candidate) => ({ candidate, distance: editDistance(wanted, candidate.toLowerCase()) }))
    .filter((c) => c.distance <= limit || c.candidate.toLowerCase().includes(wanted))
    .sort((a, b) => a.distance - b.distance || (a.candidate < b.candidate ? -1 : 1))
    .slice(0, most)
    .map((c) => c.candidate);
}

/** Optimal-string-alignment distance: insert, delete, replace or swap neighbours cost 1 each. */
function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, rows[i - 2]![j - 2]! + 1);
      row.push(best);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}
