import { withRow } from '../../catalog/edit-row.js';
import { withoutProduct, withProductCell, type WrittenProduct, writtenProducts } from '../../catalog/edit-product.js';
import { say, withText } from '../actions.js';
import type { State } from '../state.js';
import { freeName } from './bench.js';

export { type WrittenProduct, writtenProducts };

/** True of a shelf on which nothing stands yet: a header alone, or less. */
export const isEmptyShelf = (text: string | undefined): boolean =>
  text === undefined ||
  text
    .replace(/^\uFEFF/, '')
    .trim()
    .split(/\r?\n/)
    .filter((line) => !line.startsWith('#')).length <= 1;

/** shelf.csv with one cell changed; where that cannot be done for certain nothing changes, and that is said. */
export const setCell = (state: State, id: string, column: string, value: string, at: string): State =>
  changed(state, withProductCell(state.kept.texts['shelf.csv'] ?? '', id, column, value), at);

export const takeOff = (state: State, id: string, at: string): State =>
  changed(state, withoutProduct(state.kept.texts['shelf.csv'] ?? '', id), at, `${id} was taken off the shelf`);

/** A row with nothing but its name, to be filled in. */
export function putBlank(state: State, name: string, form: 'powder' | 'liquid', at: string): State {
  const text = state.kept.texts['shelf.csv'] ?? 'id,name,form\n';
  const ids = (writtenProducts(text) ?? []).map(({ id }) => id);
  const plain =
    name
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-|-$/g, '') || 'product';
  const id = freeName(ids, plain).replaceAll(' ', '-');
  const cells = new Map([
    ['id', id],
    ['name', name.trim()],
    ['form', form],
  ]);
  return changed(state, withRow(text, cells), at, `${id} was put on the shelf, to be filled in`);
}

function changed(state: State, text: string | null, at: string, undo?: string): State {
  return text === null
    ? say(state, 'This row cannot be changed here without harm to the file: change shelf.csv as a text.')
    : withText(state, 'shelf.csv', text, at, undo);
}
