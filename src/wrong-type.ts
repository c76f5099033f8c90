import { type Problem, problem, Refusal } from './problem.js';

/** What an argument has to be at least: a text, a number, an object, a list (of such), or an object with such fields. */
export type Shape = 'text' | 'number' | 'object' | 'list' | readonly [Shape] | { readonly [field: string]: Shape };

/**
 * For callers without types: refuses arguments that are not what a function has to have of them, all at once.
 * @param args by name, in the order of the function
 * @throws Refusal, one problem for each argument or field
 */
export function refuseUnlike(args: Readonly<Record<string, unknown>>, shapes: Readonly<Record<string, Shape>>): void {
  const problems = Object.entries(shapes).flatMap(([name, shape]) => unlike(name, args[name], shape));
  if (problems.length > 0) throw new Refusal(problems);
}

function unlike(name: string, value: unknown, shape: Shape): Problem[] {
  if (typeof shape === 'string') return IS[shape](value) ? [] : [wrongType(name, value, CALLED[shape])];
  if (isListOf(shape)) {
    if (!Array.isArray(value)) return [wrongType(name, value, CALLED.list)];
    return value.flatMap((one, i) => unlike(`${name}[${i}]`, one, shape[0]));
  }
  if (!isObject(value)) return [wrongType(name, value, `an object with ${Object.keys(shape).join(', ')}`)];
  return Object.entries(shape).flatMap(([field, its]) => unlike(`${name}.${field}`, value[field], its));
}

const isListOf = (shape: Shape): shape is readonly [Shape] => Array.isArray(shape);

/** True for an object that is no list. */
export const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const IS = {
  text: (value: unknown): boolean => typeof value === 'string',
  number: (value: unknown): boolean => typeof value === 'number',
  object: isObject,
  list: Array.isArray,
} as const;
const CALLED = { text: 'a text', number: 'a number', object: 'an object', list: 'a list' } as const;

/** One argument of a wrong type. */
export function wrongType(field: string, value: unknown, expected: string): Problem {
  const found =
    value === null
      ? 'null'
      : Array.isArray(value)
        ? 'a list'
        : typeof value === 'object'
          ? 'an object'
          : `${typeof value} ${String(value).slice(0, 40)}`;
  return problem('wrong-type', { field }, found.trim(), expected, 'See the types of the package.');
}
