import type { Wishes } from '../desk/wishes.js';
import type { Typed } from '../report/command-line.js';
import type { Given } from './command.js';
import { asks } from './forms.js';

/** What was said as wishes of the desk; forms that hold one feed only are told to it. */
export function wishesOf({ words, outputs }: Given): Wishes {
  const oneFeedFor = (['json', 'svg'] as const).filter((form) => asks(outputs, form));
  return { ...words, ...(oneFeedFor.length > 0 ? { oneFeedFor } : {}) };
}

/** What was typed that a command with one change has to repeat; forms and files to write are left out. */
export function typedOf({ words }: Given): Typed {
  const { json, csv, html, svg, to, replace, full, ...rest } = words;
  return rest;
}
