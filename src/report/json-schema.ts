import { nearest, problem, Refusal } from '../problem.js';

/**
 * The shape of a command's `--json` object as JSON Schema (draft 2020-12); the shapes are loaded when they are asked for.
 * @param name a name of `Results`, or `refused` for what is printed where the input is refused
 * @throws Refusal for a name without one
 */
export async function jsonSchema(name: string): Promise<object> {
  const { jsonSchemaOf, SCHEMA_NAMES } = await import('./schemas.js');
  const schema = jsonSchemaOf(name);
  if (schema !== undefined) return schema;
  const guess = nearest(name, SCHEMA_NAMES, 1)[0];
  const fix = guess === undefined ? '`velamen schema` lists them.' : `Did you mean ${guess}?`;
  throw new Refusal([problem('unknown-schema', {}, `"${name}"`, 'a command with a --json object', fix)]);
}
