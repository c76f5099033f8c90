import { type Document, isAlias, isMap, isNode, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import { type Problem, problem, type Where } from '../problem.js';
import { shorten } from './csv.js';
import { refusedText } from './limits.js';

/** A page of YAML that knows its lines. */
export interface Page {
  file: string;
  document: Document.Parsed;
  lines: LineCounter;
}

/** A value somewhere on the page, with the name of its place (`feeds.moss`); node is null where nothing is written. */
export interface Spot {
  page: Page;
  node: Node | null;
  name: string;
  line: number;
}

/** A bench is a page of text; this is a hundred of them. */
const MOST_YAML = 500_000;

/** Reads a YAML page whose top is a map; errors of form are Problems with their lines. */
export function readPage(text: string, file: string, problems: Problem[]): Spot | null {
  const refused = refusedText(text, file, MOST_YAML);
  if (refused) {
    problems.push(refused);
    return null;
  }
  const lines = new LineCounter();
  const plain = text.replace(/^\uFEFF/, '');
  const document = parseDocument(plain, { lineCounter: lines, stringKeys: true });
  const told = new Set<string>();
  for (const fault of [...document.errors, ...document.warnings]) {
    const line = fault.linePos?.[0].line ?? 1;
    if (told.has(`${line} ${fault.code}`)) continue;
    told.add(`${line} ${fault.code}`);
    problems.push(syntaxProblem(fault.code, { file, line }, plain.split(/\r?\n/)[line - 1] ?? ''));
  }
  if (problems.length === 0 && !aliasesHold(document)) {
    problems.push(
      problem(
        'yaml-alias',
        { file },
        'an alias (*name) without an end or without its anchor',
        'anchors before their aliases, few of each',
        'Write the value out.',
      ),
    );
  }
  if (problems.length > 0) return null;
  const { contents } = document;
  if (isMap(contents)) return { page: { file, document, lines }, node: contents, name: '', line: 1 };
  const empty = contents === null || (isScalar(contents) && contents.value === null);
  problems.push(
    problem(
      'yaml-not-a-map',
      { file, line: 1 },
      empty ? 'an empty file' : 'text without keys',
      'keys such as `water:` and `feeds:`',
      'Begin with `name:`, `water:` and `feeds:`, one to a line.',
    ),
  );
  return null;
}

/** Where a spot stands, for a Problem. */
export const whereIs = (spot: Spot): Where => ({
  file: spot.page.file,
  line: spot.line,
  ...(spot.name === '' ? {} : { field: spot.name }),
});

/** The entries of a map in the order of the file; `__proto__` is a name like any other. */
export function entriesOf(spot: Spot): { key: string; at: Spot; keyLine: number }[] {
  if (!isMap(spot.node)) return [];
  return spot.node.items.map(({ key, value }) => {
    const name = isScalar(key) ? String(key.value) : String(key);
    const keyLine = lineOf(spot.page, key) ?? spot.line;
    return { key: name, keyLine, at: spotOf(spot, value, name, keyLine) };
  });
}

/** The items of a list; a single value counts as a list of one. */
export function itemsOf(spot: Spot): Spot[] {
  if (!isSeq(spot.node)) return [spot];
  return spot.node.items.map((item, i) => spotOf(spot, item, String(i + 1), spot.line));
}

/** The spot under a key; its node is null, its line that of the map, where the key is missing. */
export function childOf(spot: Spot, key: string): Spot {
  return entriesOf(spot).find((e) => e.key === key)?.at ?? { ...spot, node: null, name: joined(spot.name, key) };
}

/** The plain value: text, number, list or object; undefined where nothing is written. */
export function contentOf(spot: Spot): unknown {
  return plainOf(spot.node, spot.page.document) ?? undefined;
}

/** Aliases are followed one node at a time, as `toJS` of a part does not know the anchors before it. */
function plainOf(node: unknown, document: Document.Parsed): unknown {
  if (isAlias(node)) return plainOf(node.resolve(document), document);
  // what no number holds stays as it was written
  if (isScalar(node)) return typeof node.value === 'number' && !Number.isFinite(node.value) ? node.source : node.value;
  if (isSeq(node)) return node.items.map((item) => plainOf(item, document));
  if (!isMap(node)) return undefined;
  const map: Record<string, unknown> = Object.create(null);
  for (const { key, value } of node.items) map[String(isScalar(key) ? key.value : key)] = plainOf(value, document);
  return map;
}

/** False where an alias has no anchor, runs in a circle, or multiplies past reason. */
function aliasesHold(document: Document.Parsed): boolean {
  try {
    JSON.stringify(document.toJS({ maxAliasCount: 100 }));
    return true;
  } catch (fault) {
    if (fault instanceof ReferenceError || fault instanceof TypeError || fault instanceof RangeError) return false;
    throw fault;
  }
}

export const isMapSpot = (spot: Spot): boolean => isMap(spot.node);
export const isListSpot = (spot: Spot): boolean => isSeq(spot.node);

function spotOf(parent: Spot, value: unknown, key: string, line: number): Spot {
  const node = isAlias(value) ? value.resolve(parent.page.document) : value;
  const name = joined(parent.name, key);
  return { page: parent.page, node: isNode(node) ? node : null, name, line: lineOf(parent.page, value) ?? line };
}

const joined = (name: string, key: string): string => (name === '' ? key : `${name}.${key}`);

function lineOf(page: Page, node: unknown): number | undefined {
  return isNode(node) && node.range ? page.lines.linePos(node.range[0]).line : undefined;
}

function syntaxProblem(code: string, where: Where, text: string): Problem {
  if (code === 'DUPLICATE_KEY') {
    return problem(
      'key-twice',
      where,
      `a key given twice: ${shorten(text)}`,
      'each key once',
      'Keep the one you mean.',
    );
  }
  if (code === 'RESOURCE_EXHAUSTION') {
    return problem(
      'yaml-nested',
      where,
      'brackets or keys nested too deep',
      'a few levels',
      'Take the inner ones out.',
    );
  }
  const fix =
    SYNTAX_FIXES.get(code) ?? 'Indent with spaces, close every bracket and quote, and quote text that holds a colon.';
  return problem('yaml-syntax', where, shorten(text), 'YAML', fix);
}

const SYNTAX_FIXES: ReadonlyMap<string, string> = new Map([
  ['TAB_AS_INDENT', 'Indent with spaces, not with a tab.'],
  ['BLOCK_AS_IMPLICIT_KEY', 'Put quotes around a value that holds a colon: strength: "N: 90 mg/L".'],
  ['MISSING_CHAR', 'Close the quote or bracket that is open.'],
  ['BAD_INDENT', 'Close the bracket, or line the keys up under each other.'],
]);
