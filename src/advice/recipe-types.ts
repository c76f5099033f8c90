import type { Gallon } from './named-gallon.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import type { Litres, MilliSiemensPerCm } from '../units/index.js';
import type { Spoonful } from './findings.js';

/** Words of a recipe about one product. */
interface LineWords<P> {
  product: P;
  /** The grower's own words, and the amount alone: `1/4 tsp` of `1/4 tsp of base`. */
  words: string;
  amountWords: string;
}

/** One part of a recipe: grams of a powder or millilitres of a liquid, as the product's own composition counts. */
export interface RecipeLine<P = ClosedProduct> extends LineWords<P> {
  amount: number;
  /** True where it is measured by a spoon or a cup. */
  bySpoon: boolean;
  /** How a spoonful was turned into grams; null where that was not needed. */
  spoonful: Spoonful | null;
  /** How a reading was turned into the amount; null where the amount itself was told. */
  byPen: DoseByPen | null;
}

/** A part of which the pen tells how much: what it is stands only once the ions of all that is in the can before it are known. */
export interface PenLine<P = ClosedProduct> extends LineWords<P> {
  amount: null;
  told: ToldByPen;
}

/** What the pen is to show: so much more than before, or in all. */
export interface ToldByPen {
  by: 'more' | 'until';
  mSPerCm: MilliSiemensPerCm;
  /** ppm as told and the scale they are on, ppm per mS/cm; null where a conductivity was told. */
  ppm: number | null;
  scale: number | null;
}

/** An amount that a reading came to. */
export interface DoseByPen {
  told: ToldByPen;
  /** g or mL for the whole volume, between which it lies by what labels leave open and the error of the conductivity model. */
  low: number;
  high: number;
  /** What the pen shows before and after it, mS/cm at 25 °C. */
  before: MilliSiemensPerCm;
  after: MilliSiemensPerCm;
  /** Standard deviation of the amount by the pen alone, g or mL. */
  sd: number;
}

/** A recipe read from words, for a volume in litres. Lines stand in the order told. */
export interface Recipe<P = ClosedProduct> {
  text: string;
  lines: RecipeLine<P>[];
  volumeLitres: Litres;
}

/** A recipe as written: what the pen tells is not worked out yet (`dosedByPen` does). */
export type WrittenRecipe<P = Product> = Omit<Recipe<P>, 'lines'> & { lines: (RecipeLine<P> | PenLine<P>)[] };

/** What words of a recipe are read by. */
export interface ReadRecipeBy {
  kit?: Partial<Kit>;
  /** ppm per mS/cm of the pen; null or absent where it shows EC or nobody knows. */
  scale?: number | null;
  /** Ids of the products that stand on the grower's own shelf, which are meant first where a name is not told in full. */
  onShelf?: ReadonlySet<string>;
  /** Whose gallon is meant where none is named. */
  gallon?: Gallon | null;
}
