import { CACO3_PER_MEQ, nitrificationAcidity, potentialAcidity } from '../chemistry/acidity.js';
import { ION_NUTRIENTS, type Ions, mmolPerMg } from '../chemistry/ions.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { AcidityLine } from './can-lines.js';
import { formatFixed } from '../units/index.js';

/** mg/L of each nutrient in the can, as labels state it and as they leave it. */
export type Totals = ReadonlyMap<Nutrient, { low: number; stated: number; high: number }>;

/**
 * Potential acidity of a litre of feed and what it means over time, over the make-ups that the labels allow, the likeliest first.
 * The water's own salts count as the products' do; its alkalinity is told apart.
 * @param ofWater meq/L that the water brings into the can
 */
export function acidityOf(totals: Totals, makeUps: readonly Ions[], ofWater: number): AcidityLine {
  const nitrogen = Object.fromEntries(NITROGEN.map((n) => [n, totals.get(n)?.stated ?? 0]));
  const [value, ...others] = makeUps.map((ions) => potentialAcidity({ ...saltsIn(ions), N: nitrogen.N! }));
  return {
    mgCaCO3PerLitre: value!,
    low: Math.min(value!, ...others),
    high: Math.max(value!, ...others),
    ifAllNitrifies: nitrificationAcidity(nitrogen),
    alkalinity: makeUps[0]!.alkalinity,
    says: [overTime(value!), ...forTap(ofWater, ofWater - makeUps[0]!.alkalinity)],
  };
}

const NITROGEN: readonly Nutrient[] = ['N', 'NH4-N', 'urea-N'];

/** mg of each nutrient but nitrogen in these ions. */
export function saltsIn(ions: Ions): Partial<Record<Nutrient, number>> {
  return Object.fromEntries(SALTS.map((ion) => [ION_NUTRIENTS[ion], ions[ion] / mmolPerMg(ion)]));
}

const SALTS = ['K', 'Ca', 'Mg', 'Na', 'P', 'SO4', 'Cl'] as const;

/** mg CaCO3 per litre within which a feed is neither: less than the potential of the rain's own carbon dioxide to matter. */
const NEUTRAL = 5;

/** Sphagnum pH 4.0–4.5 and its exchange of H+ for cations: handbook; bark's buffer: from memory. */
function overTime(value: number): string {
  if (Math.abs(value) <= NEUTRAL)
    return 'Nearly neutral over time: it leaves the pH of moss and bark about where it is.';
  return value > 0
    ? 'Acid over time: bark is buffered for weeks to months; moss has no buffer, stands at pH 4 to 4.5 already and is left there or lower. Flush with plain water.'
    : 'Basic over time: bark drifts upwards in weeks to months; moss has no buffer and leaves its pH of 4 to 4.5 sooner, as roots take nitrate.';
}

/** Alkalinity that greenhouses aim for in mg/L CaCO3 (convention from memory). */
const ALKALINITY_AIM = { least: 40, most: 100 } as const;

/** meq/L of acid that brings an alkalinity into its range: [to the upper end, to the lower end]; null where it is there. */
export function acidNeeded(
  alkalinity: number,
  aim: { least: number; most: number } = ALKALINITY_AIM,
): [number, number] | null {
  const [toMost, toLeast] = [alkalinity - aim.most / CACO3_PER_MEQ, alkalinity - aim.least / CACO3_PER_MEQ];
  return toMost <= 0 ? null : [toMost, toLeast];
}

/** `brought`: meq/L of acid that the products of the can hold. */
function forTap(alkalinity: number, brought: number): string[] {
  const acid = acidNeeded(alkalinity);
  if (!acid) return [];
  const { least, most } = ALKALINITY_AIM;
  const [from, to] = acid.map((meq) => formatFixed(meq, 1));
  const already = brought >= 0.1 ? ` What goes in brings ${formatFixed(brought, 1)} meq of acid already.` : '';
  return [
    `The water's alkalinity is ${formatFixed(alkalinity * CACO3_PER_MEQ, 0)} mg/L CaCO3; to bring it to ${least} to ${most} takes ${from} to ${to} meq of acid per litre.${already} Strong acids burn: mixing with rain does the same; else go by the acid's label and a person trained for it.`,
  ];
}
