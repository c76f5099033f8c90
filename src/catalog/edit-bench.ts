import { type Document, isMap, isNode, isScalar, type Pair, parseDocument, stringify, type YAMLMap } from 'yaml';

/**
 * The text of bench.yaml with one value changed, every other character kept: comments, blank lines, order, quotes, line ends. Keys that are
 * not there yet are added at the end of their map.
 * @param path keys from the top: `['feeds', 'moss', 'strength']`
 * @param value what is to stand there, as YAML on one line; null takes the key out
 * @returns null where it cannot be done for certain
 */
export function withValue(text: string, path: readonly string[], value: string | null): string | null {
  const document = parseDocument(text, { stringKeys: true });
  if (document.errors.length > 0 || !isMap(document.contents)) return null;
  const wanted = wantedOf(document, path, value);
  if (wanted === null) return null;
  const changed = changedIn(text, document.contents, path, value);
  if (changed === null) return null;
  // what comes out has to be what was meant, whatever the text looked like
  const after = parseDocument(changed, { stringKeys: true });
  return after.errors.length === 0 && JSON.stringify(after.toJS()) === JSON.stringify(wanted) ? changed : null;
}

/** The text of bench.yaml with a key called otherwise, every other character kept; null where it cannot be done for certain. */
export function withKey(text: string, path: readonly string[], name: string): string | null {
  const document = parseDocument(text, { stringKeys: true });
  const map: unknown = document.getIn(path.slice(0, -1), true);
  if (document.errors.length > 0 || !isMap(map) || map.has(name)) return null;
  const key = map.items.find((pair) => keyOf(pair) === path.at(-1))?.key;
  if (!isNode(key) || !key.range) return null;
  const changed = text.slice(0, key.range[0]) + inOneLine(name) + text.slice(key.range[1]);
  const after = parseDocument(changed, { stringKeys: true });
  const same = JSON.stringify(after.getIn([...path.slice(0, -1), name])) === JSON.stringify(document.getIn(path));
  return after.errors.length === 0 && same ? changed : null;
}

/** The value under a path as it is written, on one line; empty where nothing stands there. */
export function writtenAt(text: string, path: readonly string[]): string {
  const document = parseDocument(text, { stringKeys: true });
  const node: unknown = document.getIn(path, true);
  if (!isNode(node)) return '';
  if (isScalar(node)) return node.value === null ? '' : String(node.source ?? node.value);
  return inOneLine(node.toJS(document));
}

/** The names under a path, in their order. */
export function keysAt(text: string, path: readonly string[]): string[] {
  const node: unknown = parseDocument(text, { stringKeys: true }).getIn(path, true);
  return isMap(node) ? node.items.map(({ key }) => String(isScalar(key) ? key.value : key)) : [];
}

/** The items of a list under a path, as texts; a single value is a list of one. */
export function itemsAt(text: string, path: readonly string[]): string[] {
  const value: unknown = parseDocument(text, { stringKeys: true }).toJS();
  const found = path.reduce<unknown>(
    (above, key) => (typeof above === 'object' && above !== null ? (above as Record<string, unknown>)[key] : undefined),
    value,
  );
  if (found === undefined || found === null) return [];
  return (Array.isArray(found) ? found : [found]).map(String);
}

/** A value as YAML on one line, `[1/4 tsp, 1/8 tsp]`; texts that could be taken for something else are quoted. */
export const inOneLine = (value: unknown): string =>
  stringify(value, { collectionStyle: 'flow', flowCollectionPadding: false, lineWidth: 0 }).trim();

function wantedOf(document: Document.Parsed, path: readonly string[], value: string | null): unknown {
  const wanted = document.clone() as Document;
  if (value === null) wanted.deleteIn(path);
  else {
    const read = parseDocument(value, { stringKeys: true });
    if (read.errors.length > 0) return null;
    for (let i = 1; i < path.length; i += 1) {
      const above = wanted.getIn(path.slice(0, i), true);
      if (isMap(above)) continue;
      if (above !== undefined && !(isScalar(above) && above.value === null)) return null;
      wanted.setIn(path.slice(0, i), wanted.createNode({}));
    }
    wanted.setIn(path, read.contents);
  }
  return wanted.toJS();
}

const keyOf = ({ key }: Pair): string => String(isScalar(key) ? key.value : key);

function changedIn(text: string, map: YAMLMap, path: readonly string[], value: string | null): string | null {
  const [key, ...rest] = path as [string, ...string[]];
  const pair = map.items.find((one) => keyOf(one) === key);
  if (!pair) return value === null ? text : added(text, map, key, nested(rest, value));
  if (rest.length > 0 && isMap(pair.value)) return changedIn(text, pair.value, rest, value);
  if (rest.length > 0) return value === null ? null : replaced(text, pair, nested(rest, value));
  return value === null ? without(text, map, pair) : replaced(text, pair, value);
}

const nested = (path: readonly string[], value: string): string =>
  path.reduceRight((inner, key) => `{ ${inOneLine(key)}: ${inner} }`, value);

function replaced(text: string, { key, value: node }: Pair, value: string): string | null {
  if (isNode(node) && node.range) {
    const [start, end] = node.range;
    if (end > start) return text.slice(0, start) + value + trailing(text, end) + text.slice(end);
  }
  if (!isNode(key) || !key.range) return null;
  const colon = text.indexOf(':', key.range[1]);
  return colon < 0 ? null : `${text.slice(0, colon + 1)} ${value}${text.slice(colon + 1)}`;
}

/** A block may end with its line: what stands in its place has to end one, too. */
const trailing = (text: string, end: number): string =>
  text[end - 1] === '\n' ? (text[end - 2] === '\r' ? '\r\n' : '\n') : '';

function added(text: string, map: YAMLMap, key: string, value: string): string | null {
  const entry = `${inOneLine(key)}: ${value}`;
  const last = map.items.at(-1);
  if (map.flow) {
    if (!map.range) return null;
    if (!last) return `${text.slice(0, map.range[0])}{ ${entry} }${text.slice(map.range[1])}`;
    const end = endOf(last);
    return end === null ? null : `${text.slice(0, end)}, ${entry}${text.slice(end)}`;
  }
  const first = map.items[0]?.key;
  const end = last ? endOf(last) : null;
  if (!isNode(first) || !first.range || end === null) return null;
  const indent = text.slice(text.lastIndexOf('\n', first.range[0] - 1) + 1, first.range[0]);
  if (indent.trim() !== '') return null;
  const ends = text.includes('\r\n') ? '\r\n' : '\n';
  const stop = text[end - 1] === '\n' ? end : text.indexOf('\n', end) + 1;
  if (stop <= 0) return `${text}${ends}${indent}${entry}${ends}`;
  return `${text.slice(0, stop)}${indent}${entry}${ends}${text.slice(stop)}`;
}

function endOf({ key, value }: Pair): number | null {
  if (isNode(value) && value.range && value.range[1] > value.range[0]) return value.range[1];
  return isNode(key) && key.range ? key.range[1] + 1 : null;
}

function without(text: string, map: YAMLMap, pair: Pair): string | null {
  const { key } = pair;
  const end = endOf(pair);
  if (!isNode(key) || !key.range || end === null) return null;
  const i = map.items.indexOf(pair as (typeof map.items)[number]);
  if (map.flow) {
    const before = map.items[i - 1];
    if (before) return text.slice(0, endOf(before)!) + text.slice(end);
    const next = map.items[i + 1]?.key;
    return isNode(next) && next.range
      ? text.slice(0, key.range[0]) + text.slice(next.range[0])
      : text.slice(0, key.range[0]) + text.slice(end).replace(/^\s+/, '');
  }
  const start = text.lastIndexOf('\n', key.range[0] - 1) + 1;
  const stop = text[end - 1] === '\n' ? end : text.indexOf('\n', end) + 1;
  return text.slice(0, start) + (stop <= 0 ? '' : text.slice(stop));
}
