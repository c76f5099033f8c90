import { nearest, problem, Refusal } from '../problem.js';
import { refuseUnlike } from '../wrong-type.js';

/**
 * The shape of a command's `--json` object as JSON Schema (draft 2020-12); all of them are loaded when one is asked for.
 * @param name a name of `Results`, or `refused` for what is printed where the input is refused
 * @throws Refusal for a name without one
 */
export async function jsonSchema(name: string): Promise<object> {
  refuseUnlike({ name }, { name: 'text' });
  const { JSON_SCHEMAS } = await import('./json-schemas.js');
  const schema = JSON_SCHEMAS.get(name);
  if (schema !== undefined) return schema;
  const guess = nearest(name, [...JSON_SCHEMAS.keys()], 1)[0];
  const fix = guess === undefined ? '`velamen schema` lists them.' : `Did you mean ${guess}?`;
  throw new Refusal([problem('unknown-schema', {}, `"${name}"`, 'a command with a --json object', fix)]);
}
