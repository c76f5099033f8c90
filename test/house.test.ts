import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { parseSync } from '@swc/core';
import { describe, expect, it } from 'vitest';

const root = new URL('../', import.meta.url);
const SOURCES = filesIn('src', 'solver').filter(({ name }) => !/^src\/(desk|can)\/compiled-/.test(name));
const TESTS = filesIn('test').filter(({ name }) => name.endsWith('.test.ts'));

describe('the house', () => {
  it('has a rule of imports for every room', () => {
    const rules = createRequire(import.meta.url)('../.dependency-cruiser.cjs') as { forbidden: { name: string }[] };
    const ruled = new Set(rules.forbidden.map((rule) => rule.name));
    const rooms = readdirSync(new URL('src', root), { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect(rooms.map(({ name }) => name).filter((room) => !ruled.has(`${room}-looks-back-only`))).toEqual([]);
  });

  it('keeps a file to one thought: at most 300 lines', () => {
    const long = SOURCES.filter(({ text }) => text.trimEnd().split('\n').length > 300);
    expect(long.map(({ name }) => name)).toEqual([]);
  });

  it('leaves the command line thin: at most 80 lines a file', () => {
    const long = SOURCES.filter(({ name, text }) => /^src\/cli\//.test(name) && text.trimEnd().split('\n').length > 80);
    expect(long.map(({ name }) => name)).toEqual([]);
  });

  it('lets the views of the page see the page, and of the other rooms only what a report is made of', () => {
    const views = SOURCES.filter(({ name }) => name.endsWith('.tsx'));
    expect(views.length).toBeGreaterThan(5);
    const seen = /^(?:preact(?:\/hooks)?$|\.\.?\/(?!\.\.\/)|\.\.\/\.\.\/(?:problem|report\/(?:band|sheet))\.js$)/;
    const strangers = views.flatMap(({ name, text }) =>
      [...text.matchAll(/\bfrom '([^']+)'/g)]
        .filter(([, from]) => !seen.test(from!))
        .map(([, from]) => `${name}: ${from}`),
    );
    expect(strangers).toEqual([]);
  });

  it('turns numbers into text in one place', () => {
    expect(naming(/\.to(?:Fixed|Precision|Exponential|LocaleString)\(|\bIntl\./, /^src\/(?!units\/)/)).toEqual([]);
  });

  it('works out the same bits in every engine: functions that are left to the engine stand nowhere', () => {
    // solver/ scales by whole powers of two, which no engine rounds
    const left =
      /\bMath\.(?:a?(?:cos|sin|tan)h?|atan2|cbrt|exp|expm1|hypot|log(?:10|1p|2)?|pow)\(|\*\* ?(?!2\b|\/)[^\s/*]|\b10 \*\*/;
    expect(
      naming(left, /^src\/(?!units\/elementary\.ts)/).filter(
        (line) => !/: (?:\/\*\*|\*|.*\/\*\*)|\b2 \*\* /.test(line),
      ),
    ).toEqual([]);
  });

  it('never takes a sentence, or an id, apart again', () => {
    const takes = String.raw`\b!?\??\.(?:includes|match|matchAll|startsWith|endsWith|split|replace|replaceAll|indexOf|lastIndexOf|search|slice|substring|substr|at|charAt)\(`;
    const found = naming(
      new RegExp(String.raw`\.(?:sentence|says|because|caution|change)${takes}|\b(?:id|rowId|columnId)${takes}`),
      /^src\//,
    );
    expect(found).toEqual([]);
  });

  it('names no path of a machine, and nothing of type any', () => {
    const found = [...SOURCES, ...TESTS].flatMap(({ name, text }) =>
      nodesOf(text, name.endsWith('x')).flatMap((node) => {
        if (node.type === 'TsKeywordType' && node.kind === 'any') return [`${name}: any`];
        const path = node.type === 'StringLiteral' && MACHINE_PATH.test(String(node.value));
        return path ? [`${name}: ${node.value}`] : [];
      }),
    );
    expect(found).toEqual([]);
  });
});

describe('the tests', () => {
  it('speak one word, leave none out, end every expect with a matcher and wait for it', () => {
    expect(TESTS.length).toBeGreaterThan(80);
    expect(TESTS.flatMap(({ name, text }) => faultsOf(text).map((fault) => `${name}: ${fault}`))).toEqual([]);
  });

  it.each([
    ["test('a', () => {});", 'test( for it('],
    ["it.only('a', () => {});", 'it.only'],
    ["describe.skip('a', () => {});", 'describe.skip'],
    ["it('a', () => { expect(1); });", 'expect without a matcher'],
    ["it('a', () => { expect(1).toBe; });", 'expect without a matcher'],
    ["it('a', () => { expect(x).rejects.toThrow(); });", 'expect that nobody waits for'],
    ["it('a', () => { expect(x).toBe(x); });", 'expect of a thing against itself'],
    ["it('a', () => { expect(true).toBe(true); });", 'expect of a constant'],
    ["it('a', () => { if (x) return; expect(x).toBe(1); });", 'return before the end of a test: use fc.pre, or count'],
    ['fc.property(a, (x) => { if (x) return; });', 'return before the end of a test: use fc.pre, or count'],
  ])('a fault is seen: %s', (text, fault) => {
    expect(faultsOf(text)).toEqual([fault]);
  });
});

/** A home, a temporary folder or a drive of somebody's own machine; what every machine has (shells, devices) or none (`/no/such`) is not. */
const MACHINE_PATH = /^(?:\/(?!no\/|bin\/|dev\/|proc\/)[a-z][\w.-]*\/[\w./-]+|[A-Z]:\\.+)$/;

interface Node {
  type: string;
  [key: string]: unknown;
}

/** What is wrong with the tests of a file. */
function faultsOf(text: string): string[] {
  return nodesOf(text).flatMap((node): string[] => {
    if (node.type === 'ExpressionStatement') return expectFaults(node.expression as Node);
    if (node.type !== 'CallExpression') return [];
    const callee = node.callee as Node;
    if (callee.type === 'Identifier') {
      if (callee.value === 'test') return ['test( for it('];
      return callee.value === 'it' ? returnsIn(node) : [];
    }
    if (callee.type !== 'MemberExpression') return [];
    const [object, property] = [callee.object as Node, (callee.property as Node).value];
    if (object.type !== 'Identifier') return [];
    if (/^(?:it|describe)$/.test(String(object.value)) && /^(?:only|skip|todo|fails)$/.test(String(property)))
      return [`${object.value}.${property}`];
    return object.value === 'fc' && /^(?:asyncP|p)roperty$/.test(String(property)) ? returnsIn(node) : [];
  });
}

function expectFaults(statement: Node): string[] {
  const awaited = statement.type === 'AwaitExpression';
  const expression = awaited ? (statement.argument as Node) : statement;
  const names: string[] = [];
  let inner = expression;
  while (inner.type === 'CallExpression' || inner.type === 'MemberExpression') {
    if (inner.type === 'MemberExpression') names.push(String((inner.property as Node).value));
    const next = (inner.type === 'CallExpression' ? inner.callee : inner.object) as Node;
    if (next.type === 'Identifier') break;
    inner = next;
  }
  if (inner.type !== 'CallExpression' || (inner.callee as Node).value !== 'expect') return [];
  if (expression.type !== 'CallExpression' || expression === inner) return ['expect without a matcher'];
  if (!awaited && names.some((name) => name === 'rejects' || name === 'resolves'))
    return ['expect that nobody waits for'];
  const [got, wanted] = [inner, expression].map((call) => (call.arguments as { expression: Node }[])[0]?.expression);
  if (got && /^(?:Numeric|String|Boolean|Null)Literal$/.test(got.type)) return ['expect of a constant'];
  const same = got?.type === 'Identifier' && wanted?.type === 'Identifier' && got.value === wanted.value;
  return same ? ['expect of a thing against itself'] : [];
}

/** Returns without a value from the functions that are handed to a test, not from functions within them. */
function returnsIn(call: Node): string[] {
  const bodies = (call.arguments as { expression: Node }[]).map(({ expression }) => expression.body).filter(Boolean);
  const found = bodies.flatMap((body) =>
    childrenOf(body, (node) => !/^(?:Arrow)?Function(?:Expression|Declaration)$/.test(node.type)),
  );
  return found.some((node) => node.type === 'ReturnStatement' && !node.argument)
    ? ['return before the end of a test: use fc.pre, or count']
    : [];
}

const nodesOf = (text: string, tsx = false): Node[] =>
  childrenOf(parseSync(text, { syntax: 'typescript', tsx }), () => true);

/** The nodes below a part of a tree, depth first; those that `enter` refuses are left out with all below them. */
function childrenOf(part: unknown, enter: (node: Node) => boolean): Node[] {
  if (Array.isArray(part)) return part.flatMap((item) => childrenOf(item, enter));
  if (typeof part !== 'object' || part === null) return [];
  const isNode = 'type' in part && typeof part.type === 'string';
  if (isNode && !enter(part as Node)) return [];
  const below = Object.values(part).flatMap((item) => childrenOf(item, enter));
  return isNode ? [part as Node, ...below] : below;
}

/** Lines of the sources that a pattern finds, with their file. */
function naming(pattern: RegExp, where: RegExp): string[] {
  return SOURCES.filter(({ name }) => where.test(name)).flatMap(({ name, text }) =>
    text
      .split('\n')
      .filter((line) => pattern.test(line))
      .map((line) => `${name}: ${line.trim()}`),
  );
}

function filesIn(...folders: string[]): { name: string; text: string }[] {
  return folders.flatMap((folder) =>
    readdirSync(new URL(folder, root), { recursive: true, encoding: 'utf8' })
      .filter((file) => /\.tsx?$/.test(file))
      .map((file) => `${folder}/${file}`)
      .sort()
      .map((name) => ({ name, text: readFileSync(new URL(name, root), 'utf8') })),
  );
}
