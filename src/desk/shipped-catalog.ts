import type { Catalog } from '../catalog/catalog.js';
import { compiledCatalog } from './compiled-catalog.js';

/** The catalog that comes with the program: generic salts, invented products, waters, plant groups and their programmes. Not to be changed. */
export const shippedCatalog = (): Catalog => compiledCatalog;
