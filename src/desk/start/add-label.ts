import { atDoor } from '../../door.js';
import type { Catalog } from '../../catalog/catalog.js';
import { withRow } from '../../catalog/edit-row.js';
import { readProducts } from '../../catalog/shelf.js';
import { doubtsOfPrint, readPrintedLabel } from '../../label/printed-label.js';
import { type Problem, problem, Refusal, unwrap } from '../../problem.js';
import { byName } from '../../units/index.js';
import type { TextFile } from '../bench-files.js';
import { shippedCatalog } from '../shipped-catalog.js';
import { readStartLabel, type StartLabel } from './start-label.js';

/**
 * The text of a shelf with one label more, as one more row; every other character stays as it is.
 * @param text the label as printed, or the name of a plain salt
 * @throws Refusal where the shelf or the label cannot be read, or where a product of that id stands there
 */
export function labelOnShelf(
  shelf: TextFile,
  text: string,
  catalog: Catalog = shippedCatalog(),
): { text: string; label: StartLabel; doubts: Problem[] } {
  const before = standingOn(shelf);
  const label = unwrap(readStartLabel(text, before.length + 1, catalog, { field: '--add' }));
  const same = byName(before, label.id, ({ id }) => id);
  if (same) throw new Refusal([clash(shelf, label, same.where.line)]);
  const after = withRow(shelf.text, label.cells);
  if (after === null) throw new Refusal([cannotAdd(shelf, label)]);
  const now = readProducts(after, shelf.name);
  if (!now.ok)
    throw new Refusal(
      now.problems.map((found) => ({ ...found, where: { ...found.where, file: `label of ${label.id}` } })),
    );
  const { length } = now.value;
  const kept = length === before.length + 1 && JSON.stringify(now.value.slice(0, -1)) === JSON.stringify(before);
  if (!kept || now.value[length - 1]!.id !== label.id) throw new Refusal([cannotAdd(shelf, label)]);
  return { text: after, label, doubts: doubtsOfPrint(readPrintedLabel(text)) };
}

/** What stands on a shelf; on one with a header alone nothing does, yet. */
function standingOn({ text, name }: TextFile) {
  const read = readProducts(text, name);
  const isEmpty = !read.ok && read.problems.every(({ code }) => code === 'csv-no-rows');
  return isEmpty ? [] : unwrap(read);
}

const clash = ({ name }: TextFile, { id, name: called }: StartLabel, line: number | undefined) =>
  problem(
    'id-clash',
    { file: name, ...(line === undefined ? {} : { line }), field: 'id' },
    `${id}, which "${called}" would be called too`,
    'an id of its own for each product',
    'Begin the text with another name on a line of its own; or mend the row that is there, where it is the same product.',
  );

const cannotAdd = ({ name }: TextFile, { id }: StartLabel) =>
  problem(
    'cannot-add',
    { file: name },
    `a file that cannot take a row for ${id} without touching others`,
    'one plain line for each product',
    atDoor({
      typed: 'Add the row yourself: `velamen labels --text` tells its figures.',
      page: 'Fill it in cell by cell, or change shelf.csv as a text.',
    }),
  );
