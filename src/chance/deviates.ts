import { cos, log, sin } from '../units/elementary.js';
/**
 * Standard normal deviates of a named stream: the same seed and name give the same figures on every machine, so that two plans, or one
 * plan with and without a spread, are compared on the same batches.
 */
export function deviates(seed: number, name: string, count: number): Float64Array {
  const key = `${seed} ${name}`;
  const known = STREAMS.get(key);
  if (known && known.length >= count) return known.subarray(0, count);
  const found = draw(mulberry32(hash(key)), count);
  if (STREAMS.size >= MOST_STREAMS) STREAMS.clear();
  STREAMS.set(key, found);
  return found;
}

/** Nineteen of twenty normal values lie below so many standard deviations over the mean: both ends of a 90 % interval. */
export const NINETY = 1.6448536269514722;

/** No deviate is farther out: the uniform values have 32 bits, and the radius of Box and Muller grows with the smallest of them. */
export const FARTHEST = Math.sqrt(2 * 32 * Math.LN2);

/** Streams are pure functions of their key, so keeping them changes nothing but the time. */
const STREAMS = new Map<string, Float64Array>();
const MOST_STREAMS = 400;

/** Box and Muller 1958, two at a time. */
function draw(uniform: () => number, count: number): Float64Array {
  const found = new Float64Array(count);
  for (let i = 0; i < count; i += 2) {
    const radius = Math.sqrt(-2 * log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    found[i] = radius * cos(angle);
    if (i + 1 < count) found[i + 1] = radius * sin(angle);
  }
  return found;
}

/** FNV-1a over the UTF-16 units of a key. */
function hash(text: string): number {
  let state = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) {
    state ^= text.charCodeAt(i);
    state = Math.imul(state, 0x01000193);
  }
  return state >>> 0;
}

function mulberry32(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
