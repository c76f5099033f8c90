import type { Wishes } from '../desk/wishes.js';
import type { Given } from './command.js';
import { asks } from './forms.js';

/** What was said as wishes of the desk; forms that hold one feed only are told to it. */
export function wishesOf({ words, outputs }: Given): Wishes {
  const oneFeedFor = (['json', 'svg'] as const).filter((form) => asks(outputs, form));
  return { ...words, ...(oneFeedFor.length > 0 ? { oneFeedFor } : {}) };
}
