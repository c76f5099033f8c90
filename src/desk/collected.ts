import { type Checked, type Problem, Refusal, type Where } from '../problem.js';
import { optionOf, type Wishes } from './wishes.js';

/** Wishes that hold one text. */
type Worded = { [K in keyof Wishes]-?: NonNullable<Wishes[K]> extends string ? K : never }[keyof Wishes];

/** Gathers every problem of a question's inputs, so that all are told at once. */
export class Collected {
  readonly problems: Problem[];
  constructor(already: readonly Problem[] = []) {
    this.problems = [...already];
  }

  /** The value, or undefined where it was refused; its problems or warnings are kept. */
  take<T>(read: Checked<T>): T | undefined {
    this.problems.push(...(read.ok ? read.warnings : read.problems));
    return read.ok ? read.value : undefined;
  }

  /** What a wish says, read; undefined where it was not made or was refused. */
  wish<T>(wishes: Wishes, name: Worded, parse: (text: string, where: Where) => Checked<T>): T | undefined {
    const text = wishes[name];
    return text === undefined ? undefined : this.take(parse(text, { field: optionOf(name) }));
  }

  add(...problems: Problem[]): void {
    this.problems.push(...problems);
  }

  /** Drops what turned out not to matter. */
  forget(code: string): void {
    this.problems.splice(0, this.problems.length, ...this.problems.filter((p) => p.code !== code));
  }

  /** The warnings. @throws Refusal where any problem is an error. */
  settle(): Problem[] {
    if (this.problems.some((p) => p.severity === 'error')) throw new Refusal(this.problems);
    return this.problems;
  }
}
