import { withoutProduct, withProductCell, type WrittenProduct, writtenProducts } from '../../catalog/edit-product.js';
import { say, withText } from '../actions.js';
import type { State } from '../state.js';

export { type WrittenProduct, writtenProducts };

/** shelf.csv with one cell changed; where that cannot be done for certain nothing changes, and that is said. */
export const setCell = (state: State, id: string, column: string, value: string, at: string): State =>
  changed(state, withProductCell(state.kept.texts['shelf.csv'] ?? '', id, column, value), at);

export const takeOff = (state: State, id: string, at: string): State =>
  changed(state, withoutProduct(state.kept.texts['shelf.csv'] ?? '', id), at, `${id} was taken off the shelf`);

function changed(state: State, text: string | null, at: string, undo?: string): State {
  return text === null
    ? say(state, 'This row cannot be changed here without harm to the file: change shelf.csv as a text.')
    : withText(state, 'shelf.csv', text, at, undo);
}
