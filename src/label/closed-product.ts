import type { Ions } from '../chemistry/ions.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { MilliSiemensPerCm } from '../units/index.js';
import type { Composition } from './composition.js';
import type { ProductIons } from './counter-ions.js';
import type { Jar, Product } from './product.js';

/**
 * A product whose label has been closed (`closeProduct`): every room after this one takes these alone. What the label says and what
 * follows from it hang together and can't be changed; a copy made by spreading has neither, and is refused by its type. What changes
 * with the jar and not with the label is changed by `with`.
 */
export class ClosedProduct {
  declare readonly id: string;
  declare readonly name: string;
  declare readonly form: 'powder' | 'liquid';
  declare readonly bulkDensity?: number;
  declare readonly bulkDensityOff?: number;
  declare readonly onHand?: number;
  declare readonly pack?: number;
  declare readonly price?: number;
  declare readonly maxRate?: number;
  declare readonly kind?: string;
  declare readonly notes: string;
  declare readonly source: string;
  declare readonly evidence: Product['evidence'];
  declare readonly where: Product['where'];
  readonly #label: ClosedLabel;

  constructor(jar: Jar, label: ClosedLabel) {
    const { id, name, form, bulkDensity, bulkDensityOff, onHand, pack, price, maxRate, kind } = jar;
    const { notes, source, evidence, where } = jar;
    const told = { bulkDensity, bulkDensityOff, onHand, pack, price, maxRate, kind };
    const known = Object.entries(told).filter(([, value]) => value !== undefined);
    Object.assign(this, { id, name, form, ...Object.fromEntries(known), notes, source, evidence, where });
    this.#label = label;
    Object.freeze(this);
  }

  /** mg in one g or mL, as the closure narrows it. */
  get composition(): Composition {
    return this.#label.composition;
  }
  /** What one g or mL sets free. */
  get ions(): ProductIons {
    return this.#label.ions;
  }
  get formula(): string | undefined {
    return this.#label.formula;
  }
  get derivedFrom(): readonly string[] {
    return this.#label.derivedFrom;
  }
  /** g/mL of a liquid. */
  get density(): number | undefined {
    return this.#label.density;
  }
  /** Measured conductivity of 1 g/L or 1 mL/L, mS/cm, and the ions scaled to it; both absent where nobody measured. */
  get ec(): MilliSiemensPerCm | undefined {
    return this.#label.ec;
  }
  get measuredIons(): Ions | undefined {
    return this.#label.measuredIons;
  }
  /** The figures that the salts named cannot make; absent where they can, or where none are named. */
  get disagreement(): Disagreement | undefined {
    return this.#label.disagreement;
  }

  /** The same label on another jar: what is left of it, what it costs, how it fills a spoon. `undefined` = not known. */
  with(change: Partial<Pick<Jar, Changing>>): ClosedProduct {
    return new ClosedProduct({ ...this, ...change }, this.#label);
  }

  /** As if the label's open figures were as kind as they can be: floors count the most and caps the least. */
  asKindAsCanBe(): ClosedProduct {
    const { composition } = this.#label;
    const content = Object.fromEntries(
      Object.entries(composition.content).map(([n, { low, stated, high }]) => [n, { low: high, stated, high: low }]),
    ) as unknown as Composition['content'];
    return new ClosedProduct(this, { ...this.#label, composition: { ...composition, content } });
  }

  /** mg of iron that the label guarantees in one g or mL, whether it is counted or not. */
  get ironGuaranteed(): number {
    return this.#label.ironNotCounted ?? this.#label.composition.content.Fe.low;
  }

  get isIronCounted(): boolean {
    return this.#label.ironNotCounted === undefined;
  }

  /** As the same product in a can whose pH its chelate does not bear: its iron counts in a most, and nowhere else. */
  withIronNotCounted(): ClosedProduct {
    const { composition } = this.#label;
    const Fe = { ...composition.content.Fe, low: 0, stated: 0 };
    return new ClosedProduct(this, {
      ...this.#label,
      composition: { ...composition, content: { ...composition.content, Fe } },
      ironNotCounted: this.ironGuaranteed,
    });
  }

  /** As if its label stated other figures, mg in one g or mL, with nothing left open; its ions stay as they are. Only to be reckoned with. */
  asIfItHeld(milligrams: (nutrient: Nutrient) => number): ClosedProduct {
    const { composition } = this.#label;
    const content = Object.fromEntries(
      (Object.keys(composition.content) as Nutrient[]).map((n) => {
        const held = milligrams(n);
        return [n, { low: held, stated: held, high: held }];
      }),
    ) as unknown as Composition['content'];
    return new ClosedProduct(this, { ...this.#label, composition: { ...composition, content } });
  }

  /** Whether a product has been closed: a copy made by spreading has not. */
  static is(product: Jar): product is ClosedProduct {
    return #label in product;
  }
}

/** What is known of a product once its label is closed. */
export interface ClosedLabel {
  composition: Composition;
  ions: ProductIons;
  formula: string | undefined;
  derivedFrom: readonly string[];
  density: number | undefined;
  ec: MilliSiemensPerCm | undefined;
  measuredIons: Ions | undefined;
  disagreement: Disagreement | undefined;
  /** mg of iron that the label guarantees, where its figures above count none of it. */
  ironNotCounted?: number;
}

/** The worst figures of an analysis that the salts named cannot make, % of the product, beside the nearest that they can. */
export type Disagreement = readonly { nutrient: Nutrient; declared: number; nearest: number }[];

/** What changes from jar to jar. */
type Changing = 'bulkDensity' | 'bulkDensityOff' | 'onHand' | 'pack' | 'price' | 'maxRate';
