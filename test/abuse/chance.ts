/** Seeded choices: the same seed, the same case. */
export class Chance {
  private state: number;

  constructor(seed: number) {
    this.state = (seed * 2654435761) >>> 0;
  }

  /** From 0 up to, not including, 1 (mulberry32). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  }

  below(n: number): number {
    return Math.floor(this.next() * n);
  }

  one<T>(of: readonly T[]): T {
    return of[this.below(of.length)]!;
  }

  yes(share: number): boolean {
    return this.next() < share;
  }
}
