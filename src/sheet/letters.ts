/**
 * Numbers as letters that can be read aloud: Crockford's base 32 (from memory), in groups of four. No I, L, O or U; when read, case, spaces
 * and dashes do not count, O is 0, and I and L are 1. Two check letters end it, so that every one wrong letter, every swap of neighbours and
 * any two wrong letters less than 31 apart are found: the sums of the letters, plain and weighted by powers of the generator, vanish in the
 * field of 32 elements.
 */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const GROUP = 4;
const CHECKS = 2;

/** Powers of the generator: x^5 = x^2 + 1. */
const POWERS = Array.from({ length: 30 }).reduce<number[]>((powers) => [...powers, doubled(powers.at(-1)!)], [1]);

function doubled(x: number): number {
  return x & 16 ? ((x << 1) & 31) ^ 5 : x << 1;
}

const power = (i: number): number => POWERS[i % 31]!;
const LOGS = new Map(POWERS.map((x, i) => [x, i]));
const times = (a: number, b: number): number => (a === 0 || b === 0 ? 0 : power(LOGS.get(a)! + LOGS.get(b)!));
const over = (a: number, b: number): number => (a === 0 ? 0 : power(LOGS.get(a)! + 31 - LOGS.get(b)!));

/** The plain and the weighted sum; both vanish for a word that was not garbled. */
function sums(word: readonly number[]): [number, number] {
  return [word.reduce((sum, x) => sum ^ x, 0), word.reduce((sum, x, i) => sum ^ times(x, power(i)), 0)];
}

/** The number as groups of four letters, the last two of which check the others. */
export function spelledOut(number: bigint): string {
  const word: number[] = [];
  for (let rest = number; rest > 0n; rest /= 32n) word.unshift(Number(rest % 32n));
  while (word.length === 0 || (word.length + CHECKS) % GROUP !== 0) word.unshift(0);
  const [plain, weighted] = sums(word);
  const [x, y] = [power(word.length), power(word.length + 1)];
  const first = over(weighted ^ times(plain, y), x ^ y);
  const letters = [...word, first, plain ^ first].map((i) => LETTERS[i]!).join('');
  return letters.match(/.{4}/g)!.join('-');
}

/** The number; or what is the matter with the letters. */
export function readLetters(
  text: string,
): { ok: true; number: bigint } | { ok: false; why: 'letter' | 'length' | 'check'; found: string } {
  const plain = text
    .normalize('NFKC')
    .toUpperCase()
    .replace(/[\s\p{Pd}]/gu, '')
    .replace(/O/g, '0')
    .replace(/[IL]/g, '1');
  const strange = [...plain].find((letter) => !LETTERS.includes(letter));
  if (strange !== undefined) return { ok: false, why: 'letter', found: strange };
  if (plain.length === 0 || plain.length % GROUP !== 0) return { ok: false, why: 'length', found: `${plain.length}` };
  const word = [...plain].map((letter) => LETTERS.indexOf(letter));
  const [first, second] = sums(word);
  if (first !== 0 || second !== 0) return { ok: false, why: 'check', found: text.trim() };
  return { ok: true, number: word.slice(0, -CHECKS).reduce((sum, x) => sum * 32n + BigInt(x), 0n) };
}
