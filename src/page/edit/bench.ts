import { parseDocument } from 'yaml';
import { inOneLine, itemsAt, keysAt, withKey, withValue, writtenAt } from '../../catalog/edit-bench.js';
import { remember, say, withText } from '../actions.js';
import type { State } from '../state.js';

export { itemsAt, keysAt, writtenAt };

/** Words as YAML: as they are typed where that says the same, else in quotes. */
export function asValue(words: string): string {
  const typed = words.trim();
  const read = parseDocument(`{ a: ${typed} }`, { stringKeys: true });
  const plain = read.errors.length === 0 && String((read.toJS() as { a?: unknown }).a ?? '') === typed && typed !== '';
  return plain ? typed : inOneLine(typed);
}

/** A list of words: `[1 tsp, 1/4 tsp]`. */
export const asList = (words: readonly string[]): string => inOneLine(words.map((word) => word.trim()).filter(Boolean));

/** bench.yaml with one value changed; null takes it out. Where that cannot be done for certain, nothing changes and that is said. */
export function setValue(
  state: State,
  path: readonly string[],
  value: string | null,
  at: string,
  undo?: string,
): State {
  const text = state.kept.texts['bench.yaml'] ?? 'water: { use: rain }\n';
  const next = withValue(text, path, value);
  if (next === null)
    return say(
      state,
      `${path.join(' ')} cannot be changed here without harm to the file: change bench.yaml as a text.`,
    );
  return withText(state, 'bench.yaml', next, at, undo);
}

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
