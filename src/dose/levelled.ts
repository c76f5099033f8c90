import { type Frame, violationsIn, search } from './frame.js';
import type { Found } from '../../solver/small/index.js';

export interface Levelled {
  /** The rows, those that cannot be missed by less moved out by as much, and firm there. */
  frame: Frame;
  /** The miss left to all others. */
  slack: number;
  /** The largest miss of all; the least there is, to a hundredth. */
  worst: number;
  complete: boolean;
  /** Doses that miss no more. */
  found: Found;
}

/** So much more than the least miss is allowed: without it doses may drift far for next to nothing. */
const CLOSER = 0.01;
/** Rows within so much of the largest miss are taken to be what holds it up. */
const HOLDS_UP = 0.9;
/** Levels at most: after some, what is left is small. */
const MOST_LEVELS = 4;
/** A miss of less is none worth another level. */
const LITTLE = 0.002;

/**
 * One limit that no measures can keep, a trace too little to weigh for instance, would let all others be missed by as much. The largest
 * miss is therefore made least; then, the rows that hold it up left where they are, the largest of the others; and so on.
 * Null where even the firm rows cannot hold.
 */
export function levelled(start: Frame): Levelled | null {
  let frame = start;
  let worst = 0;
  let complete = true;
  let last: Levelled | null = null;
  for (let level = 1; ; level += 1) {
    const found = search(frame, { least: true });
    const { picks, slack: least } = found;
    complete &&= found.complete;
    // a search given up leaves what was found before
    if (!picks) return last && { ...last, complete };
    worst = Math.max(worst, least);
    const slack = least * (1 + CLOSER);
    last = { frame, slack, worst, complete, found };
    if (least < LITTLE || level === MOST_LEVELS) return last;
    const misses = violationsIn(frame, picks);
    const rows = frame.rows.map((row, r) =>
      row.firm || misses[r]! < HOLDS_UP * least ? row : { ...row, upper: row.upper + slack * row.size, firm: true },
    );
    frame = {
      ...frame,
      rows,
      cap: frame.rows.at(-1) === rows.at(-1) ? frame.cap : frame.cap && frame.cap * (1 + slack),
    };
  }
}
