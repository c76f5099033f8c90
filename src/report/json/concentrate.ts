import type * as z from 'zod';
import type { ConcentrateResult } from '../../stock/concentrate-result.js';
import type { concentrateShape } from '../concentrate-shapes.js';
import { cautionsJson, cloudingJson } from './mix.js';

/** What `concentrate --json` prints. */
export const concentrateJson = (result: ConcentrateResult): z.infer<typeof concentrateShape> => ({
  ...result,
  tanks: result.tanks.map((tank) => ({ ...tank, precipitation: tank.precipitation.map(cloudingJson) })),
  can: result.can && { ...result.can, precipitation: result.can.precipitation.map(cloudingJson) },
  jarTest: [...result.jarTest],
  cautions: cautionsJson(result.cautions),
});
