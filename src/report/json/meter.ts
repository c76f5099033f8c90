import type * as z from 'zod';
import type { MeterResult } from '../../meter/index.js';
import type { meterShape } from '../meter-shapes.js';
import { cautionsJson, mixJson } from './mix.js';

/** What `meter --json` prints of readings. */
export const meterJson = (result: MeterResult): z.infer<typeof meterShape> => ({
  ...result,
  remedy: result.remedy && { ...result.remedy, mix: mixJson(result.remedy.mix) },
  cautions: cautionsJson(result.cautions),
});
