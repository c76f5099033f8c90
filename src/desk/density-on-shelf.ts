import { withCell } from '../catalog/edit-cell.js';
import { readProducts } from '../catalog/shelf.js';
import type { SpoonWeight } from '../meter/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import { roundDigits } from '../units/index.js';
import type { TextFile } from './bench-files.js';
import { refuseUnlike } from '../wrong-type.js';

/**
 * The text of a shelf with one product's bulk density (g/mL), and how far it may be off, written into it; every other character stays as it
 * is. @throws Refusal where the text cannot be changed so, or where it holds a finer weighing
 */
export function densityOnShelf(
  shelf: TextFile,
  id: string,
  weighed: Pick<SpoonWeight, 'bulkDensity' | 'bulkOff'>,
): string {
  const shapes = {
    shelf: { name: 'text', text: 'text' },
    id: 'text',
    weighed: { bulkDensity: 'number', bulkOff: 'number' },
  } as const;
  refuseUnlike({ shelf, id, weighed }, shapes);
  const { bulkDensity, bulkOff } = weighed;
  const [own, off] = [roundDigits(bulkDensity, 3), roundDigits(bulkOff, 2)];
  const stands = readProducts(shelf.text, shelf.name);
  const old = stands.ok ? stands.value.find((product) => product.id === id) : undefined;
  if (old?.bulkDensityOff !== undefined && old.bulkDensityOff < off) {
    throw new Refusal([coarser(shelf, `${old.bulkDensity} +/- ${old.bulkDensityOff}`, `${own} +/- ${off}`)]);
  }
  // plain ASCII: a file may be opened as anything
  const value = `${own} +/- ${off}`;
  const text = withCell(shelf.text, id, 'bulk_density', value);
  if (text !== null && onlyThatChanged(shelf, text, id, [own, off])) return text;
  throw new Refusal([
    problem(
      'cannot-save',
      { file: shelf.name, field: 'bulk_density' },
      `a line for ${id} that cannot be changed without touching others`,
      'one plain line for each product',
      `Write ${value} under bulk_density yourself.`,
    ),
  ]);
}

const coarser = ({ name }: TextFile, old: string, now: string): Problem =>
  problem(
    'finer-there',
    { file: name, field: 'bulk_density' },
    `a coarser weighing (${now}) than the one that stands there (${old})`,
    'a finer one',
    'Count more spoonfuls; or clear that cell first, if the powder has changed since.',
  );

/** Reads both texts as a shelf would and compares every product. */
function onlyThatChanged(
  { text: before, name }: TextFile,
  after: string,
  id: string,
  [own, off]: readonly [number, number],
): boolean {
  const [old, now] = [readProducts(before, name), readProducts(after, name)];
  if (!old.ok || !now.ok || old.value.length !== now.value.length) return false;
  return old.value.every((product, i) => {
    const { bulkDensity: was, bulkDensityOff: wasOff, ...rest } = product;
    const { bulkDensity: is, bulkDensityOff: isOff, ...others } = now.value[i]!;
    if (JSON.stringify(rest) !== JSON.stringify(others)) return false;
    return product.id === id ? is === own && isOff === off : is === was && isOff === wasOff;
  });
}
