import { jsonSchema } from '../report/json-schema.js';
import { JSON_SCHEMAS } from '../report/json-schemas.js';
import type { Command } from './command.js';
import { jsonText } from '../report/json-text.js';

/** Publishes the shape of what --json prints, as JSON Schema. */
export const schemaCommand: Command = {
  name: 'schema',
  examples: [{ line: 'velamen schema blend > blend.schema.json', says: 'what `velamen blend --json` prints' }],
  about: [
    'Without a command it lists those that have a shape. `refused` is what every command prints with --json and exit code 2.',
  ],
  operands: { name: 'COMMAND', says: `one of ${[...JSON_SCHEMAS.keys()].join(', ')}`, most: 1 },
  options: ['to', 'replace'],
  forms: (_, [command]) => (command === undefined ? ['txt'] : ['json']),
  async run(given) {
    const wanted = given.operands[0];
    if (wanted === undefined) {
      const names = `${[...JSON_SCHEMAS.keys()].join('\n')}\n`;
      return { exit: 0, forms: { txt: () => names }, warnings: [] };
    }
    const schema = jsonText(await jsonSchema(wanted));
    return { exit: 0, forms: { json: () => schema }, warnings: [] };
  },
};
