import type { Product } from '../label/product.js';

/** Seaweed, fish, humic matter and the like feed moulds and microbes; told by what the label calls itself and is derived from. */
export function isOrganic(product: Product): boolean {
  const words = [product.kind ?? '', product.name, ...product.derivedFrom].join(' ').toLowerCase();
  return /kelp|seaweed|fish|humic|humate|fulvic|amino|molasses|hydrolysate|yeast|organic|extract|guano/.test(words);
}
