/**
 * Ions in mmol per litre; `HCO3` is alkalinity in meq, counted from H2PO4− and H2CO3. The unit of `solutionChemistry`.
 */
export type SolutionIons = Record<(typeof SOLUTION_IONS)[number], number>;

export const SOLUTION_IONS = ['K', 'Ca', 'Mg', 'Na', 'NH4', 'NO3', 'P', 'SO4', 'Cl', 'HCO3'] as const;

/** What is asked of the chemistry of a solution; `saturation` is log10(ion product / solubility product). */
export type Chemistry = (
  ions: SolutionIons,
  options: { temperatureC?: number; air?: boolean },
) => { pH: number; saturation: Record<Mineral, number | null> };

/** The minerals that cloud a can. Hydroxyapatite is none: it is above 0 from pH 6 on and takes months to form. */
export const MINERALS = ['gypsum', 'brushite', 'calcite', 'struvite'] as const;
export type Mineral = (typeof MINERALS)[number];

export type Verdict = 'clear' | 'borderline' | 'will cloud';

/** One product, or the water, with what it brings into a litre. */
export interface IonSource {
  id: string;
  name: string;
  /** What it most likely brings. */
  ions: SolutionIons;
  /** The most its label allows, ion by ion; `ions` where the label leaves nothing open. */
  most?: SolutionIons;
}

/** What one mineral does. */
export interface CloudingLine {
  mineral: Mineral;
  /** log10(ion product / solubility product) as mixed; null where a part of the mineral is missing. */
  index: number | null;
  /** The same after standing open to the air. */
  openIndex: number | null;
  verdict: Verdict;
  /** The items that bring most of its two parts, as ids; null where a part is missing. */
  between: [string, string] | null;
  sentence: string;
}

export interface Clouding {
  /** The worst of the four. */
  verdict: Verdict;
  /** As mixed, and after standing open to the air. */
  pH: number;
  openPH: number;
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
    return {
      mineral,
      index,
      openIndex,
      verdict,
      between: between && [between[0].id, between[1].id],
      sentence: sentenceOf(mineral, verdict, between, {
        onStanding: verdictOf(mineral, index) !== likely,
        labelOnly: likely === 'clear' && verdict !== 'clear',
      }),
    };
  });
  return {
    verdict: minerals.map((m) => m.verdict).reduce(worse, 'clear'),
    pH: mixed.pH,
    openPH: open.pH,
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
export function pairOf(mineral: Mineral, sources: readonly IonSource[]): [IonSource, IonSource] | null {
  const [first, second] = PARTS[mineral].map((ion) => mostOf(ion, sources));
  return first && second ? [first, second] : null;
}

function mostOf(ion: keyof SolutionIons, sources: readonly IonSource[]): IonSource | undefined {
  const brings = (b: IonSource): number => Math.max(b.ions[ion], b.most?.[ion] ?? 0);
  const best = sources.reduce<IonSource | undefined>(
    (top, b) => (top && brings(top) >= brings(b) ? top : b),
    undefined,
  );
  return best && brings(best) > 0 ? best : undefined;
}

function sentenceOf(
  mineral: Mineral,
  verdict: Verdict,
  between: [IonSource, IonSource] | null,
  { onStanding, labelOnly }: { onStanding: boolean; labelOnly: boolean },
): string {
  if (verdict === 'clear') return `${mineralName(mineral)}: stays clear.`;
  const who = between === null ? '' : `, from ${pairNames(between)}`;
  const when = onStanding ? ' after standing open to the air' : '';
  if (labelOnly)
    return `${mineralName(mineral)}${who}: clear by what is stated, but what the labels leave open could cloud it.`;
  return verdict === 'borderline'
    ? `${mineralName(mineral)}${who}: borderline${when}; use it the same day.`
    : `${mineralName(mineral)}${who}: will cloud${when}.`;
}

/** `cal with base`, or the one that brings both. */
export const pairNames = ([a, b]: [IonSource, IonSource]): string =>
  a.id === b.id ? a.name : `${a.name} with ${b.name}`;

const SPELLED: Readonly<Record<Mineral, string>> = {
  gypsum: 'calcium sulfate (gypsum)',
  brushite: 'calcium phosphate (brushite)',
  calcite: 'lime (calcite)',
  struvite: 'magnesium ammonium phosphate (struvite)',
};

/** The mineral as a grower would say it. */
export const mineralName = (mineral: Mineral): string => SPELLED[mineral];

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
