import { parseDocument } from 'yaml';
import { inOneLine, itemsAt, keysAt, withKey, withValue, writtenAt } from '../../catalog/edit-bench.js';
import { remember, say, withText } from '../actions.js';
import type { State } from '../state.js';
import type { BenchField } from './bench-fields.js';

export { itemsAt, keysAt, writtenAt };

/** Words as YAML: as they are typed where that says the same, else in quotes. */
export function asValue(words: string): string {
  const typed = words.trim();
  const read = parseDocument(`{ a: ${typed} }`, { stringKeys: true });
  const plain = read.errors.length === 0 && String((read.toJS() as { a?: unknown }).a ?? '') === typed && typed !== '';
  return plain ? typed : inOneLine(typed);
}

/** A list of words: `[1 tsp, 1/4 tsp]`. */
export const asList = (words: readonly string[]): string =>
  `[${words
    .filter((word) => word.trim() !== '')
    .map(asValue)
    .join(', ')}]`;

/** What stands under a path, as its field shows it. */
export function shownAt(text: string, path: readonly string[], { written = 'words' }: BenchField): string {
  if (written === 'words') return writtenAt(text, path);
  if (written === 'pairs' && keysAt(text, path).length > 0)
    return keysAt(text, path)
      .map((key) => `${key}: ${itemsAt(text, [...path, key]).join(', ')}`)
      .join('\n');
  return itemsAt(text, path).join(written === 'list' ? ', ' : '\n');
}

/** What was typed in a field as YAML on one line; null: nothing, which takes the key out. */
export function typedAs(typed: string, { written = 'words' }: BenchField): string | null {
  if (typed.trim() === '') return null;
  if (written === 'words') return asValue(typed);
  if (written === 'list') return asList(typed.split(LIST_PARTS));
  const lines = typed.split('\n').filter((line) => line.trim() !== '');
  if (written === 'lines') return asList(lines);
  const pairs = lines.map((line) => {
    const [key = '', ...rest] = line.split(':');
    return `${asValue(key)}: ${asValue(rest.join(':'))}`;
  });
  return `{ ${pairs.join(', ')} }`;
}

/** Commas and semicolons; a comma between two digits is a decimal comma. */
const LIST_PARTS = /;|,(?!\d)|(?<!\d),/;

/** bench.yaml with one value changed; null takes it out. Where that cannot be done for certain, nothing changes and that is said. */
export function setValue(
  state: State,
  path: readonly string[],
  value: string | null,
  at: string,
  undo?: string,
): State {
  const text = state.kept.texts['bench.yaml'] ?? 'water: { use: rain }\n';
  const next = withValue(text, path, value) ?? (value === null ? withoutLast(text, path) : null);
  if (next === null)
    return say(
      state,
      `${path.join(' ')} cannot be changed here without harm to the file: change bench.yaml as a text.`,
    );
  return withText(state, 'bench.yaml', next, at, undo);
}

/** The only key of a map goes with its map. */
const withoutLast = (text: string, path: readonly string[]): string | null =>
  path.length > 1 && keysAt(text, path.slice(0, -1)).length === 1 ? withValue(text, path.slice(0, -1), null) : null;

/** A feed called otherwise; who looked at it still does. */
export function renamed(state: State, from: string, to: string, at: string): State {
  const next = withKey(state.kept.texts['bench.yaml'] ?? '', ['feeds', from], to.trim());
  if (next === null || to.trim() === '')
    return say(state, `${from} cannot be called so: is there another of that name?`);
  const { feed } = state.remembered;
  const named = withText(state, 'bench.yaml', next, at);
  return feed === from ? remember(named, 'feed', to.trim()) : named;
}

/** A name that no feed has yet. */
export function freeName(names: readonly string[], wanted: string): string {
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? wanted : `${wanted} ${n}`;
    if (!names.includes(name)) return name;
  }
}
