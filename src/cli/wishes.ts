import type { Wishes } from '../desk/wishes.js';
import type { Given } from './command.js';

/** The options that were given as wishes of the desk: `--at-most 2` is `atMost: '2'`. */
export function wishesOf(given: Given): Wishes {
  const said = given.named().map((name) => [WISH[name] ?? camelled(name), saidUnder(name, given)] as const);
  const oneFeedFor = ['json', 'svg'].filter((form) => given.named().includes(form));
  return { ...Object.fromEntries(said), ...(oneFeedFor.length > 0 ? { oneFeedFor } : {}) };
}

const LISTS: ReadonlySet<string> = new Set(['water', 'rule', 'with', 'without', 'ban', 'need', 'reading']);

const WISH: Readonly<Record<string, string>> = {};

const camelled = (name: string): string => name.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());

/** Every value of a list, the value of an option, or true for a switch. */
const saidUnder = (name: string, given: Given): unknown =>
  LISTS.has(name) ? given.texts(name) : (given.text(name) ?? true);
