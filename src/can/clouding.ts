import { WEAK_ACIDS } from '../chemistry/ions.js';

/**
 * Ions in mmol per litre, weak acids whatever protons they hold; `HCO3` is alkalinity in meq, counted as in `Ions`. The unit of `solutionChemistry`.
 */
export type SolutionIons = Record<(typeof SOLUTION_IONS)[number], number>;

export const SOLUTION_IONS = ['K', 'Ca', 'Mg', 'Na', 'NH4', 'NO3', 'P', 'SO4', 'Cl', 'HCO3', ...WEAK_ACIDS] as const;

/** What is asked of the chemistry of a solution; `saturation` holds the saturation index, log10(ion product / solubility product). */
export type Chemistry = (
  ions: SolutionIons,
  options: { temperatureC?: number; air?: boolean },
) => { pH: number; saturation: Record<Mineral, number | null>; species?: Record<string, number> };

/** The minerals that precipitate from a feed solution and cloud it. Hydroxyapatite is none: it is above 0 from pH 6 on and takes months to form. */
export const MINERALS = ['gypsum', 'brushite', 'calcite', 'struvite'] as const;
export type Mineral = (typeof MINERALS)[number];

export type Verdict = 'clear' | 'borderline' | 'will cloud';

/** One product, or the water, with what it brings into a litre. */
export interface IonSource extends Brings {
  /** What it most likely brings. */
  ions: SolutionIons;
  /** The most its label allows, ion by ion; `ions` where the label leaves nothing open. */
  most?: SolutionIons;
}

/** Who brings an ion. */
export interface Brings {
  kind: 'product' | 'water';
  id: string;
  name: string;
}

/** The items that bring most of the two parts of a mineral; one and the same where it brings both. */
export type Pair = readonly [Brings, Brings];

/** Whether one mineral precipitates. */
export type CloudingLine = ClearLine | CloudyLine;

interface MineralLine {
  mineral: Mineral;
  /** Saturation index, log10(ion product / solubility product), as mixed; null where a part of the mineral is missing. */
  index: number | null;
  /** The same after standing open to the air. */
  openIndex: number | null;
  /** null where a part is missing, or where only the air brings it. */
  between: Pair | null;
}

export interface ClearLine extends MineralLine {
  verdict: 'clear';
}

export interface CloudyLine extends MineralLine {
  verdict: 'borderline' | 'will cloud';
  /**
   * `as mixed`; `standing`: only after standing open to the air; `label`: clear by what is stated, not by the most that labels leave open.
   */
  by: 'as mixed' | 'standing' | 'label';
}

export interface Clouding {
  /** The worst of the four. */
  verdict: Verdict;
  /** As mixed, and after standing open to the air. */
  pH: number;
  openPH: number;
  /** mmol/L of ammonium that is free ammonia, likewise. */
  ammonia: number;
  openAmmonia: number;
  minerals: CloudingLine[];
}

/**
 * Whether a solution stays clear, as mixed and after standing open to the air: the worse of the two counts, and of what labels
 * leave open the most that can be there counts as borderline at least.
 */
export function cloudingOf(sources: readonly IonSource[], chemistry: Chemistry, temperatureC = 25): Clouding {
  const ions = unbalanced(totalOf(sources.map((b) => b.ions)));
  const mixed = chemistry(ions, { temperatureC, air: false });
  const open = chemistry(ions, { temperatureC, air: true });
  const opens = sources.some((b) => b.most);
  const worst = opens
    ? chemistry(totalOf(sources.map((b) => (b.most ? unbalanced({ ...b.most, HCO3: b.ions.HCO3 }) : b.ions))), {
        temperatureC,
      })
    : null;
  const minerals = MINERALS.map((mineral): CloudingLine => {
    const present = partsOf(mineral).every((part) => ions[part] > TRACE);
    // as mixed, lime needs alkalinity; the air brings carbonate only later
    const index = present && (mineral !== 'calcite' || ions.HCO3 > TRACE) ? finite(mixed.saturation[mineral]) : null;
    const openIndex = present ? finite(open.saturation[mineral]) : null;
    const likely = worse(verdictOf(mineral, index), verdictOf(mineral, openIndex));
    const possible = verdictOf(mineral, worst === null ? null : finite(worst.saturation[mineral]));
    const verdict = likely === 'clear' && possible !== 'clear' ? 'borderline' : likely;
    const between = index === null && openIndex === null && verdict === 'clear' ? null : pairOf(mineral, sources);
    const line = { mineral, index, openIndex, between };
    if (verdict === 'clear') return { ...line, verdict };
    const by = likely === 'clear' ? 'label' : verdictOf(mineral, index) === likely ? 'as mixed' : 'standing';
    return { ...line, verdict, by };
  });
  return {
    verdict: minerals.map((m) => m.verdict).reduce(worse, 'clear'),
    pH: mixed.pH,
    openPH: open.pH,
    ammonia: mixed.species?.NH3 ?? 0,
    openAmmonia: open.species?.NH3 ?? 0,
    minerals,
  };
}

/**
 * Above `cloud` a mineral comes out of a can within the hours it stands; below `clear` it cannot come out at all, with room for the
 * error of the model (0.1 to 0.15 in feeds) and of a spoon (20 % is 0.1). 0.3 either side of saturation for the quick ones.
 * Calcite is slow, slower still beside phosphate: taps stand at 0.3 to 0.7 for days without a cloud, scale shows from about 0.8
 * (common practice of water works, from memory).
 */
export const THRESHOLDS: Readonly<Record<Mineral, { clear: number; cloud: number }>> = {
  gypsum: { clear: -0.3, cloud: 0.3 },
  brushite: { clear: -0.3, cloud: 0.3 },
  calcite: { clear: 0, cloud: 0.8 },
  struvite: { clear: -0.3, cloud: 0.3 },
};

export function verdictOf(mineral: Mineral, index: number | null): Verdict {
  if (index === null || index <= THRESHOLDS[mineral].clear) return 'clear';
  return index <= THRESHOLDS[mineral].cloud ? 'borderline' : 'will cloud';
}

/** The two parts that meet; struvite needs ammonium too, which is never the scarce one where it matters. */
const PARTS: Readonly<Record<Mineral, readonly [keyof SolutionIons, keyof SolutionIons]>> = {
  gypsum: ['Ca', 'SO4'],
  brushite: ['Ca', 'P'],
  calcite: ['Ca', 'HCO3'],
  struvite: ['Mg', 'P'],
};

/** Every ion that a mineral cannot do without; carbonate comes with alkalinity or from the air. */
export const partsOf = (mineral: Mineral): readonly (keyof SolutionIons)[] =>
  mineral === 'struvite' ? ['Mg', 'P', 'NH4'] : mineral === 'calcite' ? ['Ca'] : PARTS[mineral];

/** mmol/L below which an ion is not there. */
const TRACE = 1e-6;

export function totalOf(parts: readonly SolutionIons[]): SolutionIons {
  return Object.fromEntries(
    SOLUTION_IONS.map((ion) => [ion, parts.reduce((sum, part) => sum + part[ion], 0)]),
  ) as SolutionIons;
}

/** The item that brings most of each part; null where nothing does. */
export function pairOf(mineral: Mineral, sources: readonly IonSource[]): Pair | null {
  const [first, second] = PARTS[mineral].map((ion) => mostOf(ion, sources));
  return first && second ? [whoIs(first), whoIs(second)] : null;
}

export const whoIs = ({ kind, id, name }: IonSource): Brings => ({ kind, id, name });

function mostOf(ion: keyof SolutionIons, sources: readonly IonSource[]): IonSource | undefined {
  const brings = (b: IonSource): number => Math.max(b.ions[ion], b.most?.[ion] ?? 0);
  const best = sources.reduce<IonSource | undefined>(
    (top, b) => (top && brings(top) >= brings(b) ? top : b),
    undefined,
  );
  return best && brings(best) > 0 ? best : undefined;
}

const RANK: Readonly<Record<Verdict, number>> = { clear: 0, borderline: 1, 'will cloud': 2 };
const worse = (a: Verdict, b: Verdict): Verdict => (RANK[b] > RANK[a] ? b : a);

/** −∞ means that a part is missing. */
const finite = (index: number | null): number | null => (index !== null && Number.isFinite(index) ? index : null);

/**
 * Ions whose charges need not balance, such as the most of each, or sodium whose chelate is not counted: their alkalinity alone, be it
 * next to none, then settles the pH.
 */
export const unbalanced = (ions: SolutionIons): SolutionIons => ({ ...ions, HCO3: ions.HCO3 || 1e-9 });

/** The same ions so many times stronger. */
export function times(ions: SolutionIons, factor: number): SolutionIons {
  return Object.fromEntries(SOLUTION_IONS.map((ion) => [ion, factor * ions[ion]])) as SolutionIons;
}
