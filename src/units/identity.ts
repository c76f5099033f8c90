/**
 * What makes two names one: the same letters whatever their case, their width or the way their accents are put together. Ids, feeds and
 * options are compared so everywhere, the exact spelling first.
 */
export const identityOf = (name: string): string =>
  name.normalize('NFKC').toUpperCase().toLowerCase().normalize('NFKC');

/** The first mark in a name that nobody sees, as its code (`U+200B`); null where there is none. */
export function invisibleIn(name: string): string | null {
  const mark = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}\u115f\u1160\u3164\uffa0]/u.exec(name)?.[0];
  return mark === undefined ? null : `U+${mark.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
}

/** The one of that name, the exact spelling first; undefined where there is none. */
export function byName<T>(rows: readonly T[], name: string, nameOf: (row: T) => string): T | undefined {
  const wanted = identityOf(name);
  return rows.find((row) => nameOf(row) === name) ?? rows.find((row) => identityOf(nameOf(row)) === wanted);
}
