import { CHARGES, ION_NUTRIENTS, type Ions, mmolPerMg, type StrongIon } from './ions.js';
import type { PerNutrient } from './nutrients.js';
import { pow } from '../units/elementary.js';

/** Conductivity at 25 °C that 1 g/L or 1 mL/L of a product adds; low…high allows for ions that its label leaves open. */
export interface LinearEc {
  mSPerCm: number;
  low: number;
  high: number;
}

/** The range of a nutrient in one g or mL, in mg, as a label leaves it. */
interface Range {
  low: number;
  stated: number | null;
  high: number;
}

/**
 * A linear estimate, fit for a row of a linear program: each ion adds its limiting molar conductivity times one activity factor, that of a
 * feed of ionic strength 0.01 mol/L (about 0.7 mS/cm). Against published solutions in pure water from 0.2 to 1.3 mS/cm it is 5 % low
 * at the weak end and up to 7 % high at the strong end, where calcium and magnesium pair with sulfate; in hard tap water up to
 * 13 % high. Urea, other organic nitrogen and micronutrients count nothing.
 *
 * Ions that the label does not name are balanced: leftover cation charge by sulfate and chloride alike, or by bicarbonate where
 * the label settles both; leftover anion charge by hydrogen ions that take bicarbonate away (`high`: that stay free).
 * Nitrogen without a form counts half as ammonium nitrate, none for `low` and all for `high`.
 */
export function linearEc(content: PerNutrient<Range>): LinearEc {
  const declared = Object.fromEntries(
    STRONG.map((ion) => {
      const range = content[ION_NUTRIENTS[ion]];
      return [ion, (range.stated ?? range.low) * mmolPerMg(ion)];
    }),
  ) as Record<Strong, number>;
  const sum = STRONG.reduce((total, ion) => total + declared[ion] * conductivityOf(ion), 0);
  const charge = STRONG.reduce((total, ion) => total + declared[ion] * CHARGES[ion], 0);
  const silent = content.Cl.high > content.Cl.low || content.S.high > content.S.low;
  const rest = undeclaredNitrogen(content) * (AMMONIUM_NITRATE / 14.007);
  const [low, middle, high] = counterIons(charge, silent);
  return { mSPerCm: (sum + middle + rest / 2) / 1000, low: (sum + low) / 1000, high: (sum + high + rest) / 1000 };
}

/** The same estimate for ions in mmol/L, alkalinity as bicarbonate; mS/cm. */
export function linearEcOfIons(ions: Ions): number {
  const strong = STRONG.reduce((total, ion) => total + ions[ion] * conductivityOf(ion), 0);
  return (strong + ions.alkalinity * (ions.alkalinity > 0 ? BICARBONATE : -HYDROGEN)) / 1000;
}

type Strong = StrongIon;
const STRONG = Object.keys(CHARGES) as Strong[];

/** Limiting molar conductivities at 25 °C, S·cm²/mol (CRC Handbook, from memory); P as H2PO4−. */
const LIMITING: Readonly<Record<Strong | 'HCO3' | 'H', number>> = {
  K: 73.48,
  Na: 50.08,
  NH4: 73.5,
  Ca: 118.94,
  Mg: 106,
  NO3: 71.42,
  Cl: 76.31,
  SO4: 160,
  P: 33,
  HCO3: 44.5,
  H: 349.65,
};

const IONIC_STRENGTH = 0.01;

/** 10^(−0.3055·|z|^1.5·√I/(1+√I)): the simplest model that fits feeds within a few per cent. */
function activity(charge: number): number {
  const root = Math.sqrt(IONIC_STRENGTH);
  return pow(10, (-0.3055 * pow(Math.abs(charge), 1.5) * root) / (1 + root));
}

function conductivityOf(ion: Strong): number {
  return LIMITING[ion] * activity(CHARGES[ion]);
}

const BICARBONATE = LIMITING.HCO3 * activity(1);
const HYDROGEN = LIMITING.H * activity(1);
const CHLORIDE = conductivityOf('Cl');
const SULFATE = conductivityOf('SO4') / 2;
const AMMONIUM_NITRATE = (conductivityOf('NH4') + conductivityOf('NO3')) / 2;

/** µS/cm of what balances a leftover charge in meq: least, likeliest, most. */
function counterIons(charge: number, silent: boolean): [number, number, number] {
  if (charge < 0) return [charge * BICARBONATE, charge * BICARBONATE, -charge * HYDROGEN];
  if (!silent) return [charge * BICARBONATE, charge * BICARBONATE, charge * BICARBONATE];
  return [charge * BICARBONATE, (charge * (SULFATE + CHLORIDE)) / 2, charge * CHLORIDE];
}

/** mg of nitrogen whose form the label leaves open. */
function undeclaredNitrogen(content: PerNutrient<Range>): number {
  const stated = (range: Range): number => range.stated ?? range.low;
  const forms = (['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const).reduce(
    (sum, form) => sum + stated(content[form]),
    0,
  );
  return Math.max(0, stated(content.N) - forms);
}
