/**
 * A text as it may stand in a cell: whatever separator the opening program splits at, no piece of it begins as a formula does. An apostrophe
 * before such a beginning says that it is text; `cellText` takes it off again. A number stays as it is.
 */
export const safeCell = (text: string): string =>
  NUMBER.test(text) ? text : inPieces(text, (piece) => piece.replace(/^(\s*)('*[=+\-@])/, "$1'$2"));

/** The text that `safeCell` was given. */
export const cellText = (cell: string): string =>
  inPieces(cell, (piece) => piece.replace(/^(\s*)'(?='*[=+\-@])/, '$1'));

/** A cell of a comma file is quoted where it holds a comma; what splits at `;`, tabs or lines knows nothing of our quotes. */
const inPieces = (text: string, change: (piece: string) => string): string =>
  text
    .split(/([;\t\r\n])/)
    .map(change)
    .join('');

const NUMBER = /^-?\d+(?:[.,]\d+)?(?:e[-+]?\d+)?$/i;
