/** Seeded chance (mulberry32): the same seed rolls the same program on every machine. */
export interface Dice {
  unit(): number;
  between(low: number, high: number): number;
  whole(low: number, high: number): number;
  chance(part: number): boolean;
  pick<T>(items: readonly T[]): T;
}

export function dice(seed: number): Dice {
  let state = seed >>> 0;
  const unit = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const whole = (low: number, high: number) => low + Math.floor(unit() * (high - low + 1));
  return {
    unit,
    between: (low, high) => low + (high - low) * unit(),
    whole,
    chance: (part) => unit() < part,
    pick: (items) => items[whole(0, items.length - 1)]!,
  };
}
