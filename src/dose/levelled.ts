import { type Frame, violationsIn, search } from './frame.js';
import type { Found } from '../../solver/small/index.js';

export interface Levelled {
  /** The rows, those that cannot be violated by less relaxed by as much, and firm there. */
  frame: Frame;
  /** The violation allowed to all others. */
  allowed: number;
  /** The largest violation of all; the least there is, to a hundredth. */
  worst: number;
  complete: boolean;
  /** Doses that violate no row by more. */
  found: Found;
}

/** So much more than the least violation is allowed: without it doses may drift far for next to nothing. */
const CLOSER = 0.01;
/** Rows within so much of the largest violation are taken to be what holds it up. */
const HOLDS_UP = 0.9;
/** Levels at most: after some, what is left is small. */
const MOST_LEVELS = 4;
/** A smaller violation is none worth another level. */
const LITTLE = 0.002;

/**
 * One limit that no measures can keep, a trace too little to weigh for instance, would let all others be violated by as much. The largest
 * violation is therefore made least; then, the rows that hold it up left where they are, the largest of the others; and so on.
 * Null where even the firm rows cannot hold.
 */
export function levelled(start: Frame): Levelled | null {
  let frame = start;
  let worst = 0;
  let complete = true;
  let last: Levelled | null = null;
  for (let level = 1; ; level += 1) {
    const found = search(frame, { leastViolation: true });
    const { picks, violation: least } = found;
    complete &&= found.complete;
    // a search given up leaves what was found before
    if (!picks) return last && { ...last, complete };
    worst = Math.max(worst, least);
    const allowed = least * (1 + CLOSER);
    last = { frame, allowed, worst, complete, found };
    if (least < LITTLE || level === MOST_LEVELS) return last;
    const violations = violationsIn(frame, picks);
    const rows = frame.rows.map((row, r) =>
      row.firm || violations[r]! < HOLDS_UP * least
        ? row
        : { ...row, upper: row.upper + allowed * row.size, firm: true },
    );
    frame = {
      ...frame,
      rows,
      cap: frame.rows.at(-1) === rows.at(-1) ? frame.cap : frame.cap && frame.cap * (1 + allowed),
    };
  }
}
