/** The door of the catalog: text in, typed rows or every Problem at once out. */
export { readBench } from './bench.js';
export type { Bench, FeedSpec, Kit, Pen, Spoon } from './bench-types.js';
export {
  CATALOG_FILES,
  type Catalog,
  type CatalogTexts,
  findMedium,
  findPhase,
  findPlants,
  findProduct,
  findWater,
  readCatalog,
} from './catalog.js';
export { findNamed, type Named } from './names.js';
export type { CatalogPlants, Term } from './plants.js';
export type { Evidence, Product, Water } from '../label/product.js';
export { readProducts } from './shelf.js';
export { readSolubility, type Solubility, SOLUBILITY_TEMPERATURES } from './solubility.js';
export { type CatalogWater, readWaters, WATER_NUTRIENTS } from './waters.js';
