/**
 * Standard atomic weights, abridged to five figures: IUPAC/CIAAW 2021 (Prohaska et al. 2022, Pure Appl. Chem. 94:573), from
 * memory. F, Al, Se and I serve carriers and traces only.
 */
export const ATOMIC_WEIGHTS: ReadonlyMap<string, number> = new Map([
  ['H', 1.008],
  ['B', 10.81],
  ['C', 12.011],
  ['N', 14.007],
  ['O', 15.999],
  ['F', 18.998],
  ['Na', 22.99],
  ['Mg', 24.305],
  ['Al', 26.982],
  ['Si', 28.085],
  ['P', 30.974],
  ['S', 32.06],
  ['Cl', 35.45],
  ['K', 39.098],
  ['Ca', 40.078],
  ['Mn', 54.938],
  ['Fe', 55.845],
  ['Co', 58.933],
  ['Ni', 58.693],
  ['Cu', 63.546],
  ['Zn', 65.38],
  ['Se', 78.971],
  ['Mo', 95.95],
  ['I', 126.9],
]);

/** g/mol of an element. Throws for a symbol outside the table: a fault of ours, never of an input. */
export function atomicWeight(element: string): number {
  const weight = ATOMIC_WEIGHTS.get(element);
  if (weight === undefined) throw new RangeError(`no atomic weight for ${element}`);
  return weight;
}
