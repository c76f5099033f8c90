import type { Product } from '../catalog/product.js';
import { type Checked, checked, nearest, type Problem, problem } from '../problem.js';
import { parseAmount } from '../units/index.js';

/** A recipe read from words: amounts in grams (powders) or millilitres (liquids) for a volume in litres. */
export interface Recipe {
  text: string;
  lines: { product: Product; amount: number; words: string; note?: string }[];
  volumeLitres: number;
}
