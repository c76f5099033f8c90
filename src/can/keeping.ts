import type { Evidence } from '../label/product.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import { cloudingOf, type Mineral, type Verdict } from './clouding.js';
import { CAN_LIMITS } from './compiled-limits.js';
import { ionSourceOf, ionSourceOfWater } from './ion-sources.js';
import { ironIn } from './iron.js';
import { isOrganic } from './organic.js';
import type { Blend, Part } from './part.js';

/** How long a mixed can may stand closed, cool and dark, and what ends it: the soonest first. */
export interface Keeping {
  hours: number;
  causes: [KeepingCause, ...KeepingCause[]];
}

/** What limits how long a can keeps, with where the hours are from. */
export type KeepingCause = { hours: number; source: string; evidence: Evidence | 'computed' } & (
  | { why: 'plain water' }
  /** Products by name. */
  | { why: 'organic matter' | 'unnamed nitrogen'; products: string[] }
  /** mg/L of nitrogen. */
  | { why: 'urea'; mgPerLitre: number }
  /** The saturation index of the worst mineral at a temperature. */
  | { why: 'clouds'; mineral: Mineral; index: number; celsius: number; verdict: Exclude<Verdict, 'clear'> }
  | { why: 'iron not held'; pH: number }
  /** `chelates`: the agents that hold its iron; null where a label names none. Empty where there is no iron: light feeds algae alone. */
  | { why: 'light'; chelates: (string | null)[] }
);

/** A can on a cold window sill, and in a room, °C (judgement). */
const TEMPERATURES = [5, 25];
/** Less of the nitrogen than this is no urea to speak of. */
const LITTLE = 0.02;

/**
 * How long a can may stand, on the safe side: microbes, urea, what clouds on a cold window sill or in a room by the full model, iron that its
 * chelate does not hold, and light. What no label tells is taken as the worse.
 * @param parts g/L or mL/L of its products
 */
export function keepingOf(parts: readonly Part[], waters: readonly Blend[]): Keeping {
  if (parts.length === 0) return { hours: ofRow('light').hours, causes: [{ ...ofRow('light'), why: 'plain water' }] };
  const [first, ...others] = [...clouds(parts, waters), ...microbes(parts), ...iron(parts, waters)].sort(
    (a, b) => a.hours - b.hours,
  );
  const light: KeepingCause = { ...ofRow('light'), why: 'light', chelates: chelates(parts, waters) };
  return first ? { hours: first.hours, causes: [first, ...others, light] } : { hours: light.hours, causes: [light] };
}

type Row = Pick<KeepingCause, 'hours' | 'source' | 'evidence'>;

/** Hours of `can-limits.csv`, with their source. */
function ofRow(of: string): Row {
  const { most: hours, source, evidence } = CAN_LIMITS.find((row) => row.quantity === 'keeping' && row.of === of)!;
  return { hours, source, evidence };
}

function microbes(parts: readonly Part[]): KeepingCause[] {
  const named = (some: readonly Part[]): string[] => some.map(({ product: { name, id } }) => name || id);
  const organic = parts.filter(({ product }) => isOrganic(product));
  const stated = (form: 'N' | 'urea-N', { product, perLitre }: Part): number => {
    const { low, stated: told } = product.composition.content[form];
    return perLitre * (told ?? low);
  };
  const sum = (form: 'N' | 'urea-N'): number => parts.reduce((total, part) => total + stated(form, part), 0);
  const nitrogen = sum('N');
  const urea = sum('urea-N');
  // of what no label states, as much as it may be
  const unnamed = parts.filter(
    ({ product, perLitre }) =>
      (product.composition.content['urea-N'].stated ?? null) === null &&
      perLitre * product.composition.content['urea-N'].high > LITTLE * nitrogen,
  );
  return [
    ...(organic.length > 0 ? [{ ...ofRow('organic'), why: 'organic matter' as const, products: named(organic) }] : []),
    ...(urea > LITTLE * nitrogen ? [{ ...ofRow('urea'), why: 'urea' as const, mgPerLitre: urea }] : []),
    ...(unnamed.length > 0 ? [{ ...ofRow('urea'), why: 'unnamed nitrogen' as const, products: named(unnamed) }] : []),
  ];
}

/** The worst mineral, cold or warm; what stands clear in both has none. */
function clouds(parts: readonly Part[], waters: readonly Blend[]): KeepingCause[] {
  const sources = [
    ...parts.map(({ product, perLitre }) => ionSourceOf(product, perLitre)),
    ...waters.map(({ water, share }) => ionSourceOfWater(water, share)),
  ];
  const cloudy = TEMPERATURES.flatMap((celsius) =>
    cloudingOf(sources, solutionChemistry, celsius).minerals.flatMap(({ mineral, verdict, index, openIndex }) =>
      verdict === 'clear'
        ? []
        : [{ mineral, verdict, celsius, index: Math.max(index ?? openIndex ?? 0, openIndex ?? index ?? 0) }],
    ),
  ).sort((a, b) => Number(b.verdict === 'will cloud') - Number(a.verdict === 'will cloud') || b.index - a.index);
  const [worst] = cloudy;
  if (!worst) return [];
  return [{ ...ofRow(worst.verdict), evidence: 'computed', why: 'clouds', ...worst }];
}

function iron(parts: readonly Part[], waters: readonly Blend[]): KeepingCause[] {
  const line = ironOf(parts, waters);
  return line?.sources.every(({ holds }) => !holds)
    ? [{ ...ofRow('iron not held'), why: 'iron not held', pH: line.pH }]
    : [];
}

const chelates = (parts: readonly Part[], waters: readonly Blend[]): (string | null)[] => [
  ...new Set((ironOf(parts, waters)?.sources ?? []).map(({ chelate }) => chelate).filter((agent) => agent !== 'none')),
];

function ironOf(parts: readonly Part[], waters: readonly Blend[]): ReturnType<typeof ironIn> {
  const sources = [
    ...parts.map(({ product, perLitre }) => ionSourceOf(product, perLitre)),
    ...waters.map(({ water, share }) => ionSourceOfWater(water, share)),
  ];
  return ironIn(parts, waters, cloudingOf(sources, solutionChemistry).openPH);
}
