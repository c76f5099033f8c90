import { NITROGEN_FORMS, type Nutrient } from '../../chemistry/nutrients.js';
import { productNamed } from '../named-product.js';
import type { AskedBack, BatchSpokenOf } from './types.js';

/** The items that words name (by place), what is asked back, or null where they name none. */
export type Which = { items: readonly number[]; joint: 'and' | 'or' } | { ask: AskedBack } | null;

/** One name, several joined by `and` or `or`, or all: `base`, `the kelp and part c`, `base or kelp`, `everything`. */
export function whichItems(words: string, batch: BatchSpokenOf): Which {
  const one = whichItem(words, batch);
  if (typeof one === 'number') return { items: [one], joint: 'and' };
  if (ALL.test(words)) return { items: batch.items.map((_, i) => i), joint: 'and' };
  const any = ANY_ONE.exec(words);
  if (any) {
    const form = any[1];
    const items = batch.items.flatMap(({ product }, i) => (form === undefined || product.form === form ? [i] : []));
    return items.length > 0 ? { items, joint: 'or' } : null;
  }
  for (const joint of ['or', 'and'] as const) {
    const parts = words.replace(/^(?:either|both)\s+/, '').split(joint === 'or' ? OR : AND);
    if (parts.length < 2) continue;
    const found = parts.map((part) => whichItem(part, batch));
    const places = found.filter((item) => typeof item === 'number');
    if (places.length === parts.length && new Set(places).size === places.length) return { items: places, joint };
    const asked = found.find((item) => item !== null && typeof item === 'object');
    if (asked !== undefined && found.every((item) => item !== null)) return asked as { ask: AskedBack };
  }
  return one;
}

export const ALL =
  /^(?:everything|it all|all(?: of (?:it|them))?|all (?:the )?(?:items|doses|parts|products|powders)|the lot|the whole (?:recipe|lot|thing)|each item|every (?:item|dose|part))$/;
/** Nobody knows which. */
const ANY_ONE =
  /^(?:something|one|one of them|one (?:item|part|product|thing)|one of the (?:items|parts|products|things)|one of the (powder|liquid)s)$/;
const AND = /\s*(?:,\s*and\s|,|\band\b|&|\+|\bplus\b)\s*/;
const OR = /\s*\bor\b\s*/;

/** The place of the one item that words name: by id, name, step, a part of the name, or what it alone brings. */
export function whichItem(words: string, batch: BatchSpokenOf): number | { ask: AskedBack } | null {
  const { items } = batch;
  const products = items.map(({ product }) => product);
  const name = words
    .trim()
    .replace(/^(?:any|some|the|my|our|of|all the)\s+/, '')
    .replace(/^(?:the|my)\s+/, '');
  if (name === '' || name === 'water') return null;
  const step = /^(?:step|item)\s+(\d+)$/.exec(name);
  if (step) {
    // as on the sheet: step 1 is the water
    const at = Number(step[1]) - (name.startsWith('step') ? 2 : 1);
    return at >= 0 && at < items.length ? at : null;
  }
  const exact = products.findIndex(({ id, name: called }) => tidy(id) === tidy(name) || tidy(called) === tidy(name));
  if (exact >= 0) return exact;
  const bare = name.replace(/\s+(?:part|component|bottle|jar|stuff|dose|feed|fertili[sz]er)$/, '');
  const byName = new Set([...byPartOfName(bare, batch), ...byPartOfName(name, batch), ...byTradeName(bare, batch)]);
  const byWhatItBrings = bringing(bare, batch);
  const meant = [...new Set([...byName, ...byWhatItBrings])];
  if (meant.length === 1) return meant[0]!;
  if (meant.length === 0) return null;
  const ids = meant.map((i) => products[i]!.id);
  return {
    ask: { found: `"${name}"`, expected: 'one item of the batch', fix: `It may be ${ids.join(' or ')}: write the id.` },
  };
}

const tidy = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

const tokens = (text: string): string[] =>
  tidy(text)
    .split(/[^\p{L}\p{N}.]+/u)
    .filter((token) => token !== '');

/** Every word begins one of the name; a single one has three letters or is a whole one. */
function byPartOfName(words: string, { items }: BatchSpokenOf): number[] {
  const wanted = tokens(words);
  if (wanted.every((word) => ANY.has(word))) return [];
  return items.flatMap(({ product: { id, name } }, i) => {
    const [ofId, ofName] = [tokens(id), tokens(name)];
    const isPart = (own: readonly string[]): boolean =>
      wanted.every((word) => own.some((token) => token === word || (word.length >= 3 && token.startsWith(word))));
    return isPart(ofId) || isPart(ofName) ? [i] : [];
  });
}

/** Words that any product may be called by. */
const ANY = new Set('salt salts part powder liquid feed fertilizer fertiliser bottle the of and'.split(' '));

/** Names of the trade (`mkp`, `epsoms`), as recipes read them. */
function byTradeName(words: string, { items }: BatchSpokenOf): number[] {
  const products = items.map(({ product }) => product as Parameters<typeof productNamed>[1][number]);
  return productNamed(words, products).found.map((found) => products.indexOf(found));
}

const TRACES: readonly Nutrient[] = ['Fe', 'Mn', 'B'];
const ELEMENTS: ReadonlyMap<string, readonly Nutrient[]> = new Map<string, readonly Nutrient[]>([
  ...['calcium', 'cal', 'ca'].map((word): [string, Nutrient[]] => [word, ['Ca']]),
  ...['magnesium', 'mag', 'mg'].map((word): [string, Nutrient[]] => [word, ['Mg']]),
  ...['potassium', 'potash', 'k'].map((word): [string, Nutrient[]] => [word, ['K']]),
  ...['phosphorus', 'phosphate', 'p'].map((word): [string, Nutrient[]] => [word, ['P']]),
  ...['nitrogen', 'n'].map((word): [string, Nutrient[]] => [word, [...NITROGEN_FORMS]]),
  ...['sulfur', 'sulphur', 's'].map((word): [string, Nutrient[]] => [word, ['S']]),
  ...['silica', 'silicon', 'silicate'].map((word): [string, Nutrient[]] => [word, ['Si']]),
  ...['iron', 'fe'].map((word): [string, Nutrient[]] => [word, ['Fe']]),
  ...['trace', 'traces', 'trace elements', 'trace mix', 'trace element mix', 'micros', 'micronutrients'].map(
    (word): [string, readonly Nutrient[]] => [word, TRACES],
  ),
]);

/** The item that brings nearly all of an element that the words name, if one does. */
function bringing(words: string, { items }: BatchSpokenOf): number[] {
  const elements = ELEMENTS.get(words);
  if (elements === undefined) return /^(?:liquid|powder)$/.test(words) ? ofForm(words, items) : [];
  const brings = items.map(({ product, planned }) =>
    elements.reduce((sum, element) => sum + planned * (product.composition.content[element]?.low ?? 0), 0),
  );
  const total = brings.reduce((a, b) => a + b, 0);
  return brings.flatMap((mg, i) => (mg > 0 && mg >= NEARLY_ALL * total ? [i] : []));
}

const NEARLY_ALL = 0.9;

const ofForm = (form: string, items: BatchSpokenOf['items']): number[] =>
  items.flatMap(({ product }, i) => (product.form === form ? [i] : []));
