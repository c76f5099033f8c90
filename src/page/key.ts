/**
 * A question as one text: the same for the same question, whichever object asks it. Texts of a bench, which never change, are written out
 * once each.
 */
export function keyOf(kind: string, asked: unknown): string {
  const { texts, ...rest } = (asked ?? {}) as { texts?: object };
  return `${JSON.stringify([kind, asked === null ? null : rest])}${texts === undefined ? '' : writtenOf(texts)}`;
}

const WRITTEN = new WeakMap<object, string>();

function writtenOf(texts: object): string {
  let text = WRITTEN.get(texts);
  if (text === undefined) {
    text = JSON.stringify(texts);
    WRITTEN.set(texts, text);
  }
  return text;
}
