import yargs from 'yargs';
import { nearest, type Problem, problem, Refusal } from '../problem.js';
import { type Command, FORMAT_OPTIONS, type Given, type OptionSpec } from './command.js';

/** Reads a command's arguments. @throws Refusal with every unknown, repeated, empty or clashing option. */
export function readArguments(command: Command, argv: readonly string[]): Given {
  const options = optionsOf(command);
  const { words, loose } = tellSigns(argv, options);
  const parsed = parserFor(options).parseSync(words) as Record<string, unknown>;
  const values = new Map<string, unknown[]>();
  const problems: Problem[] = [];
  for (const [key, value] of Object.entries(parsed)) {
    if (key === '_' || key === '$0' || key === 'h' || value === undefined) continue;
    const spec = options.get(key);
    if (spec === undefined) problems.push(unknownOption(key, argv, [...options.keys()], command.name));
    else values.set(key, Array.isArray(value) ? value : [value]);
  }
  for (const [key, given] of values) problems.push(...valueProblems(key, given, options.get(key)!));
  const operands = [...(parsed._ as unknown[]).map(String), ...loose];
  problems.push(...operandProblems(command, operands), ...formatProblems(values));
  if (problems.length > 0) throw new Refusal(problems);
  const text = (name: string): string | undefined =>
    known(options, name) && (values.get(name)?.[0] as string | undefined);
  return {
    text,
    texts: (name) => (known(options, name) && (values.get(name) as string[] | undefined)) || [],
    flag: (name) => known(options, name) && values.get(name)?.[0] === true,
    takes: (name) => options.has(name),
    named: () => [...values].filter(([, value]) => value[0] !== false).map(([name]) => name),
    operands,
  };
}

/** The options of a command with those of every command, in the order of its help. */
export function optionsOf(command: Command): Map<string, OptionSpec> {
  const formats = command.formats === false ? {} : FORMAT_OPTIONS;
  return new Map(Object.entries({ ...command.options, ...formats, help: { says: 'this help (-h)' } }));
}

/** A yargs parser that neither prints nor exits, and leaves judging to us. */
function parserFor(options: ReadonlyMap<string, OptionSpec>) {
  const parser = yargs([]).locale('en').help(false).version(false).exitProcess(false).fail(false).parserConfiguration({
    'boolean-negation': false,
    'camel-case-expansion': false,
    'dot-notation': false,
    'parse-numbers': false,
    'parse-positional-numbers': false,
    'duplicate-arguments-array': true,
    'strip-aliased': false,
  });
  for (const [name, spec] of options) {
    parser.option(name, {
      type: spec.value === undefined ? 'boolean' : 'string',
      describe: spec.says,
      ...(name === 'help' ? { alias: 'h' } : {}),
    });
  }
  return parser;
}

/** A word such as `-4 L` is a value with a sign, not an option: it goes to the option before it, or stands on its own. */
function tellSigns(
  argv: readonly string[],
  options: ReadonlyMap<string, OptionSpec>,
): { words: string[]; loose: string[] } {
  const words: string[] = [];
  const loose: string[] = [];
  for (const word of argv) {
    const before = words.at(-1);
    if (!/^[-−][.,]?\d/.test(word)) words.push(word);
    else if (before?.startsWith('--') && options.get(before.slice(2))?.value !== undefined)
      words[words.length - 1] = `${before}=${word}`;
    else loose.push(word);
  }
  return { words, loose };
}

function unknownOption(key: string, argv: readonly string[], known: readonly string[], command: string): Problem {
  const dashed = key.length > 1 ? `--${key}` : (argv.find((a) => /^-[^-]/.test(a) && a.includes(key)) ?? `-${key}`);
  const guess = nearest(dashed.replace(/^-+/, ''), known, 1)[0];
  const fix = guess === undefined ? `\`velamen ${command} -h\` lists them.` : `Did you mean --${guess}?`;
  return problem('unknown-option', { field: dashed }, dashed, `an option of \`velamen ${command}\``, fix);
}

function valueProblems(key: string, given: readonly unknown[], spec: OptionSpec): Problem[] {
  const field = `--${key}`;
  const problems: Problem[] = [];
  if (spec.value !== undefined && given.some((value) => typeof value !== 'string' || value.trim() === '')) {
    problems.push(
      problem(
        'option-without-value',
        { field },
        `${field} with nothing after it`,
        `${field} ${spec.value}`,
        `Write ${field} ${spec.value}.`,
      ),
    );
  }
  if (given.length > 1 && !spec.repeatable) {
    problems.push(
      problem('option-given-twice', { field }, `${field} ${given.length} times`, 'it once', 'Keep the one you mean.'),
    );
  }
  return problems;
}

function operandProblems(command: Command, operands: readonly string[]): Problem[] {
  const most = command.operands?.most ?? 0;
  if (operands.length <= most) return [];
  const extra = operands.slice(most).join(' ');
  const expected = most === 0 ? 'options only' : `at most ${most} ${command.operands?.name}`;
  return [
    problem(
      'stray-word',
      {},
      `"${extra}"`,
      expected,
      'A value of several words needs quotes around it; an option starts with --.',
    ),
  ];
}

function formatProblems(values: ReadonlyMap<string, unknown[]>): Problem[] {
  const formats = ['json', 'csv', 'html'].filter((name) => values.get(name)?.[0] === true);
  if (formats.length < 2) return [];
  return [
    problem('two-formats', {}, formats.map((f) => `--${f}`).join(' and '), 'one format', 'Ask for one at a time.'),
  ];
}

/** A misspelt option name in our own code is a fault of ours. */
function known(options: ReadonlyMap<string, OptionSpec>, name: string): true {
  if (!options.has(name)) throw new Error(`option --${name} is read but not declared`);
  return true;
}
