import * as z from 'zod';
import { schemaId } from './schema-id.js';
import { refusedShape, SHAPES } from './schemas.js';

/**
 * Every published shape as JSON Schema (draft 2020-12), by its name. The build works this file out and keeps what it comes to, so that
 * only the small half of zod, which reads bench.yaml, is part of the package.
 */
export const JSON_SCHEMAS: ReadonlyMap<string, object> = new Map(
  [...SHAPES, ['refused', refusedShape] as const].map(([name, shape]) => [
    name,
    { $id: schemaId(name), ...z.toJSONSchema(shape) },
  ]),
);
