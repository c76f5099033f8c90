/** A number and the two halves of its bits, in one place of memory. */
export const cell = new Float64Array(1);
export const words = new Int32Array(cell.buffer);
/** Where the half with sign and exponent stands in memory. */
export const HIGH = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1 ? 1 : 0;

export function highWord(x: number): number {
  cell[0] = x;
  return words[HIGH]!;
}

/** The number with another high word and the same low one. */
export function withHighWord(x: number, high: number): number {
  cell[0] = x;
  words[HIGH] = high;
  return cell[0]!;
}

/** 2^k of a whole k from −1022 to 1023. */
export const twoTo = (k: number): number => withHighWord(0, (k + 1023) << 20);

/** The number without the low half of its digits. */
export function headOf(x: number): number {
  cell[0] = x;
  words[1 - HIGH] = 0;
  return cell[0]!;
}

/** The smallest number with all its digits. */
export const SMALLEST = 2.2250738585072014e-308;

/** ln 2 as a sum of two numbers. */
export const LN2_HI = 0.6931471803691238;
/** The rest of ln 2. */
export const LN2_LO = 1.9082149292705877e-10;
