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
  const document = parseSafely(plain, lines);
  if (document === null) {
    problems.push(tooDeep(file));
    return null;
  }
  for (const fault of [...document.errors, ...document.warnings]) {
    const line = fault.linePos?.[0].line ?? 1;
    problems.push(syntaxProblem(fault.code, { file, line }, plain.split(/\r?\n/)[line - 1] ?? ''));
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
  return spot.node === null ? undefined : (spot.node.toJS(spot.page.document, { maxAliasCount: 100 }) ?? undefined);
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

/** null where brackets are nested deeper than the stack. */
function parseSafely(text: string, lineCounter: LineCounter): Document.Parsed | null {
  try {
    return parseDocument(text, { lineCounter, prettyErrors: true, stringKeys: true });
  } catch (fault) {
    if (fault instanceof RangeError) return null;
    throw fault;
  }
}

function tooDeep(file: string): Problem {
  return problem('yaml-nested', { file }, 'brackets nested too deep', 'a few levels', 'Take the inner brackets out.');
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
