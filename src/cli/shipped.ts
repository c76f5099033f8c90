import { join } from 'node:path';
import { CATALOG_FILES, type Catalog, type CatalogTexts, readCatalog } from '../catalog/catalog.js';
import { problemLine } from '../problem.js';
import { readText } from './files.js';
import { packageHome } from './home.js';

let shelf: Catalog | undefined;

/** The catalog that comes with the program, read once. A fault in it is a fault of ours. */
export function shippedCatalog(): Catalog {
  if (shelf) return shelf;
  const folder = join(packageHome(), 'catalog');
  const texts = Object.fromEntries(
    CATALOG_FILES.map((name) => [name, readText(`${name}.csv`, folder).text]),
  ) as CatalogTexts;
  const read = readCatalog(texts);
  if (!read.ok) throw new Error(`the shipped catalog: ${problemLine(read.problems[0]!)}`);
  shelf = read.value;
  return shelf;
}
