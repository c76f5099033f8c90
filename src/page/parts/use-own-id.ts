import { useState } from 'preact/hooks';

let last = 0;

/** An id that nothing else on the page has, whatever was shown or hidden before. */
export const useOwnId = (): string => useState(fresh)[0];

function fresh(): string {
  last += 1;
  return `own-${last}`;
}
