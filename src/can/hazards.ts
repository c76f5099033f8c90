import type { HazardCode, HazardGroup, HazardStatement, Sale, SubstanceHazards } from '../catalog/hazards.js';
import { formula, nutrientsPerGram } from '../chemistry/formula.js';
import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { plain } from '../chemistry/salt-names.js';
import { type Salt, saltNamed, saltsOf } from '../chemistry/salts.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { compiledSafety } from './compiled-hazards.js';

/** The hazard statements of one product or mix. */
export interface Hazards {
  /** Codes of the GHS, the most pressing first. */
  codes: string[];
  /** Taken over from the salts it may be made of, at the most that each can be of it: its own label decides. */
  may: boolean;
  /** May not be sold to private persons (EU); false where nothing is known. */
  restricted: boolean;
  /** g/L (mL/L) above which it is too much for leaves; null where nothing is known. */
  leafLimit: number | null;
}

/**
 * What is known of the dangers of a product: of the substance that its formula names, else of the salts that its label names (or, where it
 * names none, of those that could stand behind what it states), each at the most that the analysis lets it be.
 * Shares of the same statement add up, as the rules for mixtures ask.
 */
export function hazardsOf(product: ClosedProduct): Hazards {
  const held = substancesIn(product);
  return {
    codes: codesOf(held, product.form),
    may: product.formula === undefined && !(held.length === 1 && held[0]!.share >= MOSTLY),
    restricted: held.some(({ substance: { sale }, share }) => sale?.kind === 'restricted' && 100 * share >= sale.from),
    leafLimit: leafLimitOf(product, held),
  };
}

/** Hazard statements of a solution: what its products bring, g or mL in a litre, the litre taken as a kilogram. */
export function codesOfSolution(items: readonly { product: ClosedProduct; perLitre: number }[]): string[] {
  const held = items.flatMap(({ product, perLitre }) =>
    substancesIn(product).map(({ substance, share }) => ({
      substance,
      share: (share * perLitre * gramsIn(product)) / 1000,
    })),
  );
  return codesOf(held, 'liquid');
}

/** The statement behind a code, and the caution it belongs to. */
export const statementOf = (code: string): HazardStatement | undefined => statements().get(code);

/** The codes of one caution. */
export const inGroup = (codes: readonly string[], group: HazardGroup): string[] =>
  codes.filter((code) => statementOf(code)?.group === group);

/** How the sale of a substance is limited (EU), by any of its names. */
export const saleOf = (name: string): Sale | null => substanceOf(name)?.sale ?? null;

/** A substance and its share of the product, by weight; at most so much. */
interface Held {
  substance: SubstanceHazards;
  share: number;
}

/** A product that is one substance for the better part is that substance. */
const MOSTLY = 0.5;

function substancesIn(product: ClosedProduct): Held[] {
  const at = (substance: SubstanceHazards | undefined, assumed = 1): Held[] => {
    const share = substance === undefined ? 0 : mostOf(product, substance, assumed);
    return substance === undefined || share <= 0 ? [] : [{ substance, share }];
  };
  if (product.formula !== undefined) return at(substanceOf(product.formula));
  if (product.derivedFrom.length > 0)
    return [...new Set(namedSubstances(product.derivedFrom))].flatMap((named) => at(named));
  // a name alone says it only where the analysis agrees
  const named = at(substanceOf(product.name)).filter(({ share }) => share >= MOSTLY);
  return named.length > 0 ? named : compiledSafety.hazards.filter((row) => row.unnamed).flatMap((row) => at(row));
}

/** A list of names may hold several in one (`boric acid, borax`). */
const namedSubstances = (names: readonly string[]): SubstanceHazards[] =>
  names
    .flatMap((name) => (substanceOf(name) ? [substanceOf(name)] : saltsOf([name]).known.map(ofSalt)))
    .filter((substance) => substance !== undefined);

/** By its name where rows differ by that (silicates), else by the substance that the name or formula means. */
function substanceOf(name: string): SubstanceHazards | undefined {
  const own = byName().get(plain(name));
  if (own) return own;
  const salt = saltNamed(name);
  return salt ? ofSalt(salt) : byFormula().get(name);
}

const ofSalt = (salt: Salt): SubstanceHazards | undefined => byFormula().get(salt.formula);

/** The most that a substance can be of a product: no element that a label must tell may be more than the product holds. */
function mostOf(product: ClosedProduct, { formula: text }: SubstanceHazards, assumed: number): number {
  const held = tellingIn(text);
  const grams = gramsIn(product);
  const shares = held.map(([n, mg]) => product.composition.content[n].high / (mg * grams));
  return Math.min(1, shares.length === 0 ? assumed : Math.min(...shares));
}

/** mg in one gram of what tells a substance: labels are silent on the rest, and do not count the nitrogen of a chelate. */
function tellingIn(text: string): readonly (readonly [Nutrient, number])[] {
  const before = TELLING.get(text);
  if (before) return before;
  const mg = nutrientsPerGram(formula(text));
  const holding = (quiet: readonly Nutrient[]): Nutrient[] => NUTRIENTS.filter((n) => mg[n] > 0 && !quiet.includes(n));
  const loud = holding(['N', 'other-N', 'S', 'Na', 'Cl']);
  const told = (loud.length > 0 ? loud : holding(['N', 'other-N'])).map((n) => [n, mg[n]] as const);
  TELLING.set(text, told);
  return told;
}

const TELLING = new Map<string, readonly (readonly [Nutrient, number])[]>();

/** g of one g or mL; a liquid of unknown density is taken as water. */
const gramsIn = ({ form, density }: ClosedProduct): number => (form === 'powder' ? 1 : (density ?? 1));

function codesOf(held: readonly Held[], form: 'powder' | 'liquid'): string[] {
  const sums = new Map<string, number>();
  for (const { substance, share } of held) {
    const own = substance.codes.filter((code) => (code.form ?? form) === form);
    for (const { code, from } of [...own, ...weakerOf(own)]) {
      const limit = from ?? statementOf(code)?.from ?? 100;
      sums.set(code, (sums.get(code) ?? 0) + (100 * share) / limit);
    }
  }
  const hold = new Set([...sums].filter(([, sum]) => sum >= 1 - 1e-9).map(([code]) => code));
  const covered = new Set([...hold].flatMap((code) => statementOf(code)?.covers ?? []));
  return [...statements().keys()].filter((code) => hold.has(code) && !covered.has(code));
}

/** What holds below the share of a statement, unless the substance's own row says otherwise. */
function weakerOf(own: readonly HazardCode[]): HazardCode[] {
  const lowest = new Map<string, HazardCode>();
  for (const weaker of own.flatMap(({ code }) => statementOf(code)?.weaker ?? [])) {
    const before = lowest.get(weaker.code);
    if (own.every(({ code }) => code !== weaker.code) && !(before && before.from! <= weaker.from!))
      lowest.set(weaker.code, weaker);
  }
  return [...lowest.values()];
}

/** Where a product holds several such substances of one element, their element adds up: its own content counts. */
function leafLimitOf({ composition }: ClosedProduct, held: readonly Held[]): number | null {
  const limits = held.flatMap(({ substance: { leaf } }) => {
    const high = leaf && composition.content[leaf.element].high;
    return leaf && high ? [leaf.mgPerLitre / high] : [];
  });
  return limits.length === 0 ? null : Math.min(...limits);
}

const statements = lazily(() => new Map(compiledSafety.statements.map((row) => [row.code, row])));
const byName = lazily(() => new Map(compiledSafety.hazards.map((row) => [plain(row.name), row])));
/** The first row of a formula is that of the substance itself. */
const byFormula = lazily(() => new Map([...compiledSafety.hazards].reverse().map((row) => [row.formula, row])));

function lazily<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}
