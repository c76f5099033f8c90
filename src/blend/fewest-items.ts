import { boxed, type LinearProgram, type Optimal, solve } from '../../solver/index.js';
import type { Branches } from '../feed/proof.js';

/** A choice of columns with the program's answer on them. */
export interface Choice {
  /** Column ids of the products that are used. */
  items: ReadonlySet<string>;
  answer: Optimal;
}

export interface FewestItems {
  best: Choice;
  /** The search for fewer. */
  branches: Branches;
}

/** Programs asked at most; each takes a fraction of a millisecond on a home grower's shelf. */
const MOST_ASKED = 400;
/** g or mL per litre: less is none. */
const NONE = 1e-9;

/**
 * The fewest products with which a program can be kept, and the cheapest mix of those: branch and bound over which are used. A branch is
 * closed by a certified program: nothing fits, or costs less. A product is used by as much as the kit can measure, or not at all.
 * @param least by column id, g or mL per litre
 * @returns null where no choice fits
 */
export async function fewestItems(
  program: LinearProgram,
  products: readonly string[],
  least: ReadonlyMap<string, number>,
): Promise<FewestItems | null> {
  let best: Choice | null = null;
  const { within } = boxed(program);
  const answers: Branches['answers'][number][] = [];
  const branch = async (used: ReadonlySet<string>, banned: ReadonlySet<string>): Promise<void> => {
    if (answers.length >= MOST_ASKED) return;
    // no more may come in: the last question of this branch
    const full = best !== null && used.size >= best.items.size;
    const shut = full ? new Set(products.filter((id) => !used.has(id))) : banned;
    const answer = await within(endsOf(program, used, shut, least));
    answers.push(answer.verdict);
    if (answer.verdict !== 'optimal') return;
    if (full && answer.objective >= best!.answer.objective * (1 - 1e-9)) return;
    const inIt = products.filter((id) => (answer.x[id] ?? 0) > NONE);
    const tooLittle = inIt.filter((id) => !used.has(id) && answer.x[id]! < (least.get(id) ?? 0) * (1 - 1e-9));
    const items = new Set([...inIt, ...used]);
    if (tooLittle.length === 0 && isBetter({ items, answer }, best)) best = { items, answer };
    const open = (tooLittle.length > 0 ? tooLittle : inIt).filter((id) => !used.has(id));
    const next = smallest(open, answer);
    if (next === undefined) return;
    await branch(used, new Set([...banned, next]));
    if (best === null || used.size + 1 <= best.items.size) await branch(new Set([...used, next]), banned);
  };
  await branch(new Set(), new Set());
  // equally cheap amounts of the same items: those that `solve` finds, whatever was asked before
  const last = best as Choice | null;
  if (last) {
    const shut = new Set(products.filter((id) => !last.items.has(id)));
    const answer = await solve(restricted(program, last.items, shut, least));
    if (answer.verdict === 'optimal') best = { items: last.items, answer };
  }
  return best && { best, branches: { answers, ended: answers.length < MOST_ASKED } };
}

function isBetter(one: Choice, other: Choice | null): boolean {
  if (other === null || one.items.size !== other.items.size) return other === null || one.items.size < other.items.size;
  return one.answer.objective < other.answer.objective;
}

/** The one that would be missed least: a small part of what the mix costs goes first, so that good mixes are found early. */
function smallest(open: readonly string[], { x }: Optimal): string | undefined {
  return [...open].sort((a, b) => x[a]! - x[b]!)[0];
}

/** The ends of the columns: those that are banned shut, those that are used by as much as can be measured. */
function endsOf(
  { columns }: LinearProgram,
  used: ReadonlySet<string>,
  banned: ReadonlySet<string>,
  least: ReadonlyMap<string, number>,
): { lower: number[]; upper: number[] } {
  const upper = columns.map((column) => (banned.has(column.id) ? 0 : (column.upper ?? Number.POSITIVE_INFINITY)));
  const lower = columns.map((column, j) =>
    used.has(column.id) ? Math.min(least.get(column.id) ?? 0, upper[j]!) : (column.lower ?? 0),
  );
  return { lower, upper };
}

function restricted(
  program: LinearProgram,
  ...choice: [used: ReadonlySet<string>, banned: ReadonlySet<string>, least: ReadonlyMap<string, number>]
): LinearProgram {
  const { lower, upper } = endsOf(program, ...choice);
  return {
    ...program,
    columns: program.columns.map((column, j) => ({ ...column, lower: lower[j]!, upper: upper[j]! })),
  };
}
