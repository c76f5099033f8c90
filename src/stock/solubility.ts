import { SOLUBILITY_TEMPERATURES, type Solubility } from '../catalog/solubility.js';
import { type Formula, formula, parseFormula } from '../chemistry/formula.js';
import { ionsPerGram } from '../chemistry/ions.js';
import { saltNamed } from '../chemistry/salts.js';
import type { SolutionIons } from '../can/clouding.js';
import { exp, log } from '../units/elementary.js';

/** A substance with what water holds of it at one temperature. */
export interface Ceiling {
  name: string;
  /** Without crystal water. */
  formula: string;
  /** mol per kg of water. */
  molality: number;
  /** Moles of each ion in a mole; null for what does not fall apart into the ions counted (urea, boric acid, chelates, trace salts). */
  ions: ReadonlyMap<keyof SolutionIons, number> | null;
}

/** What water holds of each substance of the table at a temperature; straight lines between the columns, level outside them. */
export function ceilingsAt(table: readonly Solubility[], celsius: number): Ceiling[] {
  return table.map((row) => {
    const substance = formula(row.formula);
    return {
      name: row.name,
      formula: dry(row.formula),
      molality: (10 * between(row.grams, celsius)) / substance.molarMass,
      ions: wholeIons(substance),
    };
  });
}

/**
 * How full the water is with a salt, 1 = saturated: the ν-th root of the product of its ions' concentrations over the same product
 * in its saturated solution. Activity is left out: it is lower in the stronger mixture, so this errs to the safe side.
 * @param molality mol per kg of water
 */
export function fullness(ceiling: Ceiling, molality: (ion: keyof SolutionIons) => number): number {
  if (ceiling.ions === null) return 0;
  let logs = 0;
  let count = 0;
  for (const [ion, n] of ceiling.ions) {
    const there = molality(ion);
    if (!(there > 0)) return 0;
    logs += n * log(there / (n * ceiling.molality));
    count += n;
  }
  return exp(logs / count);
}

/** The substance of the table that a product simply is, by its formula or its only source. */
export function ceilingOf(
  product: { formula?: string; derivedFrom: readonly string[] },
  ceilings: readonly Ceiling[],
): { ceiling: Ceiling; molarMass: number } | null {
  const text =
    product.formula ?? (product.derivedFrom.length === 1 ? saltNamed(product.derivedFrom[0]!)?.formula : undefined);
  if (text === undefined) return null;
  const read = parseFormula(text);
  const ceiling = read.ok ? ceilings.find((c) => c.formula === dry(text)) : undefined;
  return ceiling && read.ok ? { ceiling, molarMass: read.value.molarMass } : null;
}

function between(grams: readonly number[], celsius: number): number {
  const temperatures = SOLUBILITY_TEMPERATURES;
  const above = temperatures.findIndex((t) => t >= celsius);
  if (above === 0) return grams[0]!;
  if (above < 0) return grams.at(-1)!;
  const [t0, t1] = [temperatures[above - 1]!, temperatures[above]!];
  return grams[above - 1]! + ((grams[above]! - grams[above - 1]!) * (celsius - t0)) / (t1 - t0);
}

/** `MgSO4·7H2O` → `MgSO4`. */
const dry = (text: string): string => text.replace(/\s+/g, '').replace(/[·.*•⋅](?:\d+(?:[./]\d+)?)?H2O$/, '');

/** The ions of a salt that falls apart into counted ions only, phosphate as H2PO4−; null for anything else. */
function wholeIons(substance: Formula): Ceiling['ions'] {
  if ([...substance.atoms.keys()].some((element) => !COUNTED.has(element))) return null;
  if (substance.nitrogen['urea-N'] > 0 || substance.nitrogen['other-N'] > 0) return null;
  const { alkalinity, carbonate, silicate, borate, citrate, acetate, ...ions } = ionsPerGram(substance);
  if (alkalinity !== 0 || carbonate + silicate + borate + citrate + acetate !== 0) return null;
  const perMole = substance.molarMass / 1000;
  return new Map(
    Object.entries(ions).flatMap(([ion, mmol]) =>
      mmol > 0 ? [[ion as keyof SolutionIons, mmol * perMole] as const] : [],
    ),
  );
}

const COUNTED: ReadonlySet<string> = new Set(['K', 'Ca', 'Mg', 'Na', 'N', 'P', 'S', 'Cl', 'O', 'H']);
