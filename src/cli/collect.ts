import { type Checked, type Problem, Refusal } from '../problem.js';
import type { Given } from './command.js';

/** Gathers every problem of a command's inputs, so that all are told at once. */
export class Collected {
  readonly problems: Problem[] = [];

  /** The value, or undefined where it was refused; its problems or warnings are kept. */
  take<T>(read: Checked<T>): T | undefined {
    this.problems.push(...(read.ok ? read.warnings : read.problems));
    return read.ok ? read.value : undefined;
  }

  /** What an option says, read; undefined where it was not given or was refused. */
  option<T>(given: Given, name: string, parse: (text: string) => Checked<T>): T | undefined {
    const text = given.text(name);
    return text === undefined ? undefined : this.take(parse(text));
  }

  /** The result of a reading that throws its refusals. */
  attempt<T>(read: () => T): T | undefined {
    try {
      return read();
    } catch (fault) {
      if (!(fault instanceof Refusal)) throw fault;
      this.problems.push(...fault.problems);
      return undefined;
    }
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
