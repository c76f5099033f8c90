import { type Problem, problem, type Where } from '../problem.js';
import { commaNotes, readNumber, spelledOut } from '../units/index.js';
import type { Span } from './types.js';

/** What has not been understood yet. */
export class Rest {
  text: string;
  constructor(
    readonly whole: string,
    readonly where: Where,
    readonly problems: Problem[],
  ) {
    // `mg N/L` is `mg/L N`
    this.text = spelledOut(whole.slice(0, 200))
      .replace(/[’‘]/g, "'")
      .replace(/\s+/g, ' ')
      .replace(/\b(mg|ppm)[ -]?(N|P|K|Ca|Mg)\s*(?:\/|per)\s*(?:L|lit(?:re|er))\b/g, 'mg/L $2');
    if (whole.trim().length > 200)
      refuse(
        this,
        'advice-unread',
        `${whole.trim().length} characters`,
        'advice in one sentence',
        'Write only the amount, the product and the strength.',
      );
  }

  /** The groups of the first match, which is cut out. */
  take(pattern: RegExp): Record<string, string | undefined> | null {
    const match = pattern.exec(this.text);
    if (!match) return null;
    this.text = `${this.text.slice(0, match.index)} | ${this.text.slice(match.index + match[0].length)}`;
    return { ...match.groups, whole: match[0].trim() };
  }

  drop(pattern: RegExp): void {
    this.text = this.text.replace(pattern, ' ').replace(/\s+/g, ' ');
  }
}

/** Puts a refusal on record. */
export function refuse({ where, problems }: Rest, code: string, found: string, expected: string, fix: string): void {
  problems.push(problem(code, where, found, expected, fix));
}

/** The ends of a range; both the same for one figure. */
export function span(rest: Rest, found: Record<string, string | undefined>): Span {
  const low = number(rest, (found.from ?? found.from2)!);
  const to = found.to ?? found.to2;
  const high = to === undefined ? low : number(rest, to);
  return { low: Math.min(low, high), high: Math.max(low, high) };
}

/** A figure as written; what cannot be read one way only is refused. */
export function number({ where, problems }: Rest, text: string): number {
  const read = readNumber(text.trim());
  if (!read.ok) {
    problems.push(problem('advice-number', where, read.found, read.expected, read.fix));
    return 1;
  }
  problems.push(...commaNotes(read.comma, where));
  return read.value;
}
