/**
 * Breaks text at blanks into lines of at most `columns` characters; a longer word is cut, after a hyphen where it has one.
 * Always at least one line.
 */
export function wrap(text: string, columns: number): string[] {
  const room = Math.max(1, columns);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/ +/).flatMap((w) => cut(w, room))) {
    if (line === '') line = word;
    else if (widthOf(line) + 1 + widthOf(word) <= room) line += ` ${word}`;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** Text from a file cannot move the cursor: control and direction marks are shown as a blank. */
export const plainText = (text: string): string => withoutMarks(text).trim();

/** Control and direction marks as blanks, each run as one. */
export const withoutMarks = (text: string): string =>
  text.replace(/[\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu, ' ');

/** Columns a text takes on the terminal: combining marks none, wide East Asian letters two. */
export function widthOf(text: string): number {
  let width = 0;
  for (const letter of text) {
    if (/\p{Mn}/u.test(letter)) continue;
    width += WIDE.test(letter) ? 2 : 1;
  }
  return width;
}

export const padRight = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));
export const padLeft = (text: string, width: number): string => ' '.repeat(Math.max(0, width - widthOf(text))) + text;

const WIDE =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}]/u;

function cut(word: string, columns: number): string[] {
  if (widthOf(word) <= columns) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (widthOf(piece + letter) > columns && piece !== '') {
      const hyphen = piece.lastIndexOf('-') + 1;
      const end = hyphen > 1 ? hyphen : piece.length;
      pieces.push(piece.slice(0, end));
      piece = piece.slice(end);
    }
    piece += letter;
  }
  return [...pieces, piece];
}
