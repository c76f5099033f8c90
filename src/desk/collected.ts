import { type Checked, type Problem, Refusal } from '../problem.js';
import { type Beside, type ReadKey, readWish, type ValueOf } from './options/read-wish.js';
import type { Wishes } from './wishes.js';

/** Wishes that hold one text, and wishes that hold several. */
type One = { [K in ReadKey]: NonNullable<Wishes[K]> extends string ? K : never }[ReadKey];
type Several = Exclude<ReadKey, One>;

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

  /** What a wish says, read by the table of options; undefined where it was not made or was refused. */
  wish<K extends One>(wishes: Wishes, key: K, ...beside: Beside<K>): ValueOf<K> | undefined {
    const text = wishes[key];
    return text === undefined ? undefined : this.take(readWish(key, text as string, ...beside));
  }

  /** The same for a wish that may be made more than once; what was refused is left out. */
  wishes<K extends Several>(wishes: Wishes, key: K, ...beside: Beside<K>): ValueOf<K>[] {
    const texts = (wishes[key] ?? []) as readonly string[];
    return texts.flatMap((text) => this.take(readWish(key, text, ...beside)) ?? []);
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
