import { randomBytes } from 'node:crypto';
import { chmodSync, readFileSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { withCell } from '../catalog/edit-cell.js';
import { readProducts } from '../catalog/shelf.js';
import type { SpoonWeight } from '../meter/index.js';
import { problem, Refusal } from '../problem.js';
import { decode } from './files.js';
import { roundDigits } from '../units/index.js';

/**
 * Writes one product's bulk density, with how far it may be off, into a shelf file. Every other byte stays as it is; the file is replaced in one step, so a fault half-way
 * leaves the old one. @throws Refusal where the file cannot be changed so.
 */
export function saveBulkDensity(
  path: string,
  id: string,
  { bulkDensity, bulkOff }: Pick<SpoonWeight, 'bulkDensity' | 'bulkOff'>,
  cwd: string,
): void {
  const full = realpathSync(resolve(cwd, path));
  const bytes = readFileSync(full);
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? '\uFEFF' : '';
  const before = decode(bytes, path);
  const [own, off] = [roundDigits(bulkDensity, 3), roundDigits(bulkOff, 2)];
  // plain ASCII: a file may be opened as anything
  const value = `${own} +/- ${off}`;
  const text = withCell(before.replace(/^\uFEFF/, ''), id, 'bulk_density', value);
  if (text === null || !onlyThatChanged(before, text, path, id, [own, off])) {
    throw new Refusal([
      problem(
        'cannot-save',
        { file: path, field: 'bulk_density' },
        `a line for ${id} that cannot be changed without touching others`,
        'one plain line for each product',
        `Write ${value} under bulk_density yourself.`,
      ),
    ]);
  }
  replace(full, mark + text, path);
}

/** Reads both texts as a shelf would and compares every product. */
function onlyThatChanged(
  before: string,
  after: string,
  path: string,
  id: string,
  [own, off]: readonly [number, number],
): boolean {
  const [old, now] = [readProducts(before, path), readProducts(after, path)];
  if (!old.ok || !now.ok || old.value.length !== now.value.length) return false;
  return old.value.every((product, i) => {
    const { bulkDensity: was, bulkDensityOff: wasOff, ...rest } = product;
    const { bulkDensity: is, bulkDensityOff: isOff, ...others } = now.value[i]!;
    if (JSON.stringify(rest) !== JSON.stringify(others)) return false;
    return product.id === id ? is === own && isOff === off : is === was && isOff === wasOff;
  });
}

function replace(full: string, text: string, path: string): void {
  const beside = `${full}.${randomBytes(4).toString('hex')}.new`;
  try {
    writeFileSync(beside, text, { flag: 'wx' });
    chmodSync(beside, statSync(full).mode);
    renameSync(beside, full);
  } catch (fault) {
    rmSync(beside, { force: true });
    const code = (fault as { code?: string }).code ?? '';
    if (!['EACCES', 'EPERM', 'EROFS', 'ENOSPC'].includes(code)) throw fault;
    throw new Refusal([
      problem(
        'cannot-write',
        { file: path },
        'a place that may not be written to',
        'a place to write to',
        'Change its permissions.',
      ),
    ]);
  }
}
