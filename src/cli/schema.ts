import { benchSchema } from '../catalog/bench-schema.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { jsonSchema } from '../report/json-schema.js';
import { JSON_SCHEMAS } from '../report/json-schemas.js';
import type { Command } from './command.js';
import { jsonText } from '../report/json-text.js';

/** What has a schema: what commands print, and bench.yaml. */
const NAMES = ['bench', ...JSON_SCHEMAS.keys()];

/** Publishes the shape of what --json prints, and that of bench.yaml, as JSON Schema. */
export const schemaCommand: Command = {
  name: 'schema',
  examples: [
    { line: 'velamen schema blend > blend.schema.json', says: 'what `velamen blend --json` prints' },
    { line: 'velamen schema bench > bench.schema.json', says: 'bench.yaml: editors complete and check it by this' },
  ],
  about: [
    'Without a name it lists those that have a shape. `refused` is what every command prints with --json and exit code 2. An editor that knows YAML takes the schema of bench.yaml from its first line: # yaml-language-server: $schema=bench.schema.json',
  ],
  operands: { name: 'NAME', says: `one of ${NAMES.join(', ')}`, most: 1 },
  options: ['to', 'replace'],
  forms: (_, [command]) => (command === undefined ? ['txt'] : ['json']),
  async run(given) {
    const wanted = given.operands[0];
    if (wanted === undefined) {
      const names = `${NAMES.join('\n')}\n`;
      return { exit: 0, forms: { txt: () => names }, warnings: [] };
    }
    const schema = jsonText(wanted === 'bench' ? benchSchema(shippedCatalog()) : await jsonSchema(wanted));
    return { exit: 0, forms: { json: () => schema }, warnings: [] };
  },
};
