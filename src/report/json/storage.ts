import type * as z from 'zod';
import type { Supported } from '../../catalog/practice.js';
import type { Storage } from '../../year/storage.js';
import type { storageShape, support } from '../storage-shapes.js';

export const supportJson = ({ refs, ...told }: Supported): z.infer<typeof support> => ({ refs: [...refs], ...told });

/** How each jar is kept, as JSON has it. */
export const storageJson = (storage: readonly Storage[]): z.infer<typeof storageShape> =>
  storage.map((one) => ({
    ...one,
    draws: one.draws && { ...one.draws, support: supportJson(one.draws.support) },
  }));
