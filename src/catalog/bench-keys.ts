import * as z from 'zod/mini';
import { anything, optional, required, sectionOf, words } from './section.js';

/** The keys of bench.yaml. */
export const BENCH = sectionOf({
  name: optional(words, 'a name'),
  currency: optional(words, 'a currency, such as EUR'),
  law: optional(
    words.check(z.refine((value) => /^(?:eu|us)$/i.test(String(value)))),
    'eu or us: whose law says what a label may be off by',
  ),
  water: required(
    anything.check(z.refine((value) => value !== undefined && value !== null)),
    'a water, such as { use: rain }',
  ),
  kit: optional(anything, 'what you measure with, such as { scale: 0.01 g }'),
  pen: optional(anything, 'EC or { scale: 500 }'),
  season: optional(anything, '{ hemisphere: south }, or light and temperature by month'),
  feeds: optional(anything, 'feeds by name'),
});
