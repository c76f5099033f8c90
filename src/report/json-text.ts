import { Refusal } from '../problem.js';
import { wrongType } from '../wrong-type.js';

/**
 * A value as JSON, two spaces deep. @throws Refusal for what JSON cannot hold at all; Error where a number in it is not finite, which would
 * silently become null.
 */
export function jsonText(value: unknown): string {
  if (['undefined', 'function', 'symbol', 'bigint'].includes(typeof value))
    throw new Refusal([wrongType('value', value, 'a value that JSON can hold')]);
  const text = JSON.stringify(
    value,
    (key, part: unknown) => {
      if (typeof part === 'number' && !Number.isFinite(part))
        throw new Error(`"${key}" is ${part}, which JSON cannot hold`);
      return part;
    },
    2,
  );
  return `${text.replace(HIDDEN, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`)}\n`;
}

/** Marks that a terminal would obey, which JSON leaves as they are: written as escapes they mean the same to every reader. */
const HIDDEN = /[\u007f-\u009f\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;
