import type { Said } from './options/option.js';
import type { WISH_OPTIONS } from './options/wishes-table.js';

/**
 * What is asked of a bench, in the words a person types: an option of the command line, a field of a page or a key of a library call.
 * Keys, what they mean and how their words are read stand in the table of options (`atMost` is `--at-most`), so that `15,5 °C` or
 * `1 US gal` means the same everywhere. All are optional; problems name the option.
 */
export type Wishes = Said<typeof WISH_OPTIONS> & {
  /** Ids of the products that are meant; without them, all. */
  products?: readonly string[];
  /** Forms that hold one feed only, such as `json`: several feeds are then refused, naming them. */
  oneFeedFor?: readonly string[];
};

/** Which of these wishes were made, in the order they were made. */
export function made(wishes: Wishes, among: readonly (keyof Wishes)[]): (keyof Wishes)[] {
  return (Object.keys(wishes) as (keyof Wishes)[]).filter((key) => {
    const said = wishes[key];
    return among.includes(key) && said !== undefined && said !== false && !(Array.isArray(said) && said.length === 0);
  });
}
