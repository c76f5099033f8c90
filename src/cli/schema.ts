import * as z from 'zod';
import { nearest, problem, Refusal } from '../problem.js';
import { schemaId } from '../report/schema-id.js';
import { refusedShape, SHAPES } from '../report/schemas.js';
import type { Command } from './command.js';
import { jsonText } from './json.js';

/** Publishes the shape of what --json prints, as JSON Schema. */
export const schemaCommand: Command = {
  name: 'schema',
  examples: [{ line: 'velamen schema blend > blend.schema.json', says: 'what `velamen blend --json` prints' }],
  about: [
    'Without a command it lists those that have a shape. `refused` is what every command prints with --json and exit code 2.',
  ],
  operands: { name: 'COMMAND', says: `one of ${[...SHAPES.keys(), 'refused'].join(', ')}`, most: 1 },
  options: ['to', 'replace'],
  forms: (_, [command]) => (command === undefined ? ['txt'] : ['json']),
  async run(given) {
    const wanted = given.operands[0];
    if (wanted === undefined) {
      const names = `${[...SHAPES.keys(), 'refused'].join('\n')}\n`;
      return { exit: 0, forms: { txt: () => names }, warnings: [] };
    }
    const schema = jsonText(jsonSchema(wanted));
    return { exit: 0, forms: { json: () => schema }, warnings: [] };
  },
};

/** JSON Schema (draft 2020-12) of a command's object. @throws Refusal for a name without one. */
function jsonSchema(command: string): object {
  const shape = command === 'refused' ? refusedShape : SHAPES.get(command);
  if (shape === undefined) {
    const guess = nearest(command, [...SHAPES.keys(), 'refused'], 1)[0];
    const fix = guess === undefined ? '`velamen schema` lists them.' : `Did you mean ${guess}?`;
    throw new Refusal([problem('unknown-schema', {}, `"${command}"`, 'a command with a --json object', fix)]);
  }
  return { $id: schemaId(command), ...z.toJSONSchema(shape) };
}
