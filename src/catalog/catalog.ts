import type { Medium, Phase } from '../programme/programme.js';
import type { BandRow, FactorRow, ProgrammeTables, RuleRow } from '../programme/tables.js';
import type { Checked, Problem, Where } from '../problem.js';
import { byName } from '../units/index.js';
import { capped } from './limits.js';
import { findNamed, unknownName } from './names.js';
import { type CatalogPlants, readMedia, readPhases, readPlants, type Term } from './plants.js';
import type { Product } from '../label/product.js';
import { readBands, readFactors, readRules } from './programmes.js';
import { readProducts } from './shelf.js';
import { readSolubility, type Solubility } from './solubility.js';
import { type CatalogWater, readWaters } from './waters.js';
import type { Shape } from '../wrong-type.js';

/** What a caller without types has to bring as one. */
export const A_CATALOG = {
  salts: 'list',
  products: 'list',
  waters: 'list',
  plants: 'list',
  media: 'list',
  bands: 'list',
  solubility: 'list',
} as const satisfies Shape;

/** Everything the program knows before the grower says a word. */
export interface Catalog extends ProgrammeTables {
  bands: Placed<BandRow>[];
  factors: Placed<FactorRow>[];
  rules: Placed<RuleRow>[];
  /** Generic salts and grades, by chemical name. */
  salts: Product[];
  /** The market: products that can be bought. */
  products: Product[];
  waters: CatalogWater[];
  plants: CatalogPlants[];
  media: Term<Medium>[];
  phases: Term<Phase>[];
  solubility: Solubility[];
}

/** A row and the line of the file that it comes from. */
type Placed<T> = T & { where: Where };

/** The files of the catalog. */
export const CATALOG_FILES = [
  'salts',
  'products',
  'waters',
  'plants',
  'media',
  'phases',
  'bands',
  'factors',
  'rules',
  'solubility',
] as const;

/** The text of each file; its name in Problems is `catalog/NAME.csv`. */
export type CatalogTexts = Record<(typeof CATALOG_FILES)[number], string>;

/** Reads the catalog, with every Problem of all its files at once. */
export function readCatalog(texts: CatalogTexts): Checked<Catalog> {
  const problems: Problem[] = [];
  const take = <T>(read: Checked<T[]>): T[] => {
    problems.push(...(read.ok ? read.warnings : read.problems));
    return read.ok ? read.value : [];
  };
  const media = take(readMedia(texts.media, nameOf('media')));
  const phases = take(readPhases(texts.phases, nameOf('phases')));
  const plants = take(readPlants(texts.plants, nameOf('plants'), media));
  const words = { plants, media, phases };
  return capped(
    {
      salts: take(readProducts(texts.salts, nameOf('salts'))),
      products: take(readProducts(texts.products, nameOf('products'))),
      waters: take(readWaters(texts.waters, nameOf('waters'))),
      ...words,
      bands: take(readBands(texts.bands, nameOf('bands'), words)),
      factors: take(readFactors(texts.factors, nameOf('factors'), words)),
      rules: take(readRules(texts.rules, nameOf('rules'), words)),
      solubility: take(readSolubility(texts.solubility, nameOf('solubility'))),
    },
    problems,
  );
}

/** The id of the plant group that a name or synonym means. */
export const findPlants = (catalog: Catalog, name: string, where: Where = {}): Checked<string> =>
  idOf(findNamed(name, catalog.plants, 'a plant group', where));

/** The medium that a name or synonym means. */
export const findMedium = (catalog: Catalog, name: string, where: Where = {}): Checked<Medium> =>
  idOf(findNamed(name, catalog.media, 'a medium', where));

/** The phase that a name or synonym means. */
export const findPhase = (catalog: Catalog, name: string, where: Where = {}): Checked<Phase> =>
  idOf(findNamed(name, catalog.phases, 'a phase', where));

/** The water of the catalog that a name or synonym means. */
export const findWater = (catalog: Catalog, name: string, where: Where = {}): Checked<CatalogWater> =>
  findNamed(name, catalog.waters, 'a water of the catalog', where);

/** The product with an id; ids are exact but for case, the nearest are offered. */
export function findProduct<P extends Pick<Product, 'id' | 'name'>>(
  products: readonly P[],
  id: string,
  where: Where = {},
): Checked<P> {
  const found = byName(products, id, (p) => p.id);
  if (found) return { ok: true, value: found, warnings: [] };
  const named = products.map((p) => ({ id: p.id, name: p.name, synonyms: [] }));
  return { ok: false, problems: [unknownName(id, named, 'the id of a product', where)] };
}

const nameOf = (key: keyof CatalogTexts): string => `catalog/${key}.csv`;

function idOf<T extends string>(found: Checked<{ id: T }>): Checked<T> {
  return found.ok ? { ok: true, value: found.value.id, warnings: found.warnings } : found;
}
