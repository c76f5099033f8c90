/** Options of a command by their keys, as a command line or wishes hold them. */
export type Typed = Readonly<Record<string, unknown>>;

/** Where nobody says what was typed. */
const UNSAID = '…';

/**
 * The command that asks the same with a change, to be pasted into a shell: what was typed before, with these options instead of their like
 * (`with` is added to).
 * @param typed null where nobody typed anything
 * @param feed the feed that is meant; null for all of the bench
 */
export function commandLine(
  typed: Typed | null,
  feed: string | null,
  change: Readonly<Record<string, string | string[]>>,
  command = 'blend',
): string {
  const before: Record<string, unknown> =
    typed === null ? {} : { ...typed, ...(typed.bench === undefined || feed === null ? {} : { feed }) };
  const options: Record<string, unknown> = { ...before, ...change };
  if (Array.isArray(before.with)) options.with = [...before.with, ...[change.with ?? []].flat()];
  const words = Object.entries(options).flatMap(([key, value]) =>
    [value].flat().flatMap((one) => {
      const name = `--${key.replace(/[A-Z]/g, (big) => `-${big.toLowerCase()}`)}`;
      if (one === undefined || one === false) return [];
      return one === true ? [name] : [name, quoted(String(one))];
    }),
  );
  return `velamen ${command}${typed === null ? ` ${UNSAID}` : ''} ${words.join(' ')}`;
}

/** As a shell reads it as one word. */
function quoted(word: string): string {
  if (/^[\w./:=+,@-]+$/.test(word)) return word;
  return /["$`\\!]/.test(word) ? `'${word.replaceAll("'", "'\\''")}'` : `"${word}"`;
}
