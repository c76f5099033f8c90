import { ION_NUTRIENTS, type Ions, mmolPerMg } from '../chemistry/ions.js';
import type { Nutrient, PerNutrient } from '../chemistry/nutrients.js';
import { formatNumber } from '../units/format.js';
import type { Composition, Content } from './composition.js';
import { isForm, SILENT, TRACES } from './sources.js';

type Range = { low: number; high: number };

/**
 * A composition with what it does not declare as its closure tells. By named salts the ceilings of sulfur, sodium and chloride become the
 * closure's, and all others only fall. Without a list ceilings only fall as well: they go by the charges that the figures leave over, for
 * if a cap counted every sodium salt that there could be beside every chloride, no such product could ever be used. What counts
 * towards a minimum stays as it was, since the label does not guarantee it.
 * @param likely mg of each nutrient, or mmol of each ion, in the likeliest make-up
 */
export function narrowed(
  composition: Composition,
  open: ReadonlyMap<Nutrient, Range>,
  likely: PerNutrient<number> | Ions,
  from: 'sources' | 'label alone',
): Composition {
  const content = { ...composition.content };
  const closed = new Map<Nutrient, { low: number; value: number; high: number }>();
  for (const [nutrient, range] of open) {
    if (TRACES.includes(nutrient)) continue;
    const before = content[nutrient];
    const top = none(range.high);
    const widens = from === 'sources' && SILENT.has(nutrient);
    const ceiling = Math.max(before.low, widens ? top : Math.min(before.high, top));
    content[nutrient] = { ...before, high: ceiling };
    const high = SILENT.has(nutrient) ? top : ceiling;
    if (!(high > before.low)) continue;
    const low = Math.min(none(range.low), high);
    closed.set(nutrient, { low, value: Math.min(high, Math.max(low, likeliest(likely, nutrient))), high });
  }
  const says = sentences(composition, content, closed, from);
  return { ...composition, content, closed, open: says };
}

/** Below a millionth of a mg an amount is the arithmetic of the program. */
const none = (mg: number): number => (mg > 1e-6 ? mg : 0);

function likeliest(likely: PerNutrient<number> | Ions, nutrient: Nutrient): number {
  if (!('alkalinity' in likely)) return likely[nutrient];
  const ion = (Object.keys(ION_NUTRIENTS) as (keyof typeof ION_NUTRIENTS)[]).find((i) => ION_NUTRIENTS[i] === nutrient);
  return ion === undefined ? 0 : likely[ion] / mmolPerMg(ion);
}

function sentences(
  { open, per, content: was }: Composition,
  content: PerNutrient<Content>,
  closed: NonNullable<Composition['closed']>,
  from: 'sources' | 'label alone',
): string[] {
  const kept = open.filter((s) => ![...SILENT].some((n) => s.startsWith(`${n} is not stated: between`)));
  const before = kept.findIndex((s) => s.startsWith(COUNTED_AS_NONE));
  const by = from === 'sources' ? 'by the salts named' : 'by every plausible counter-ion';
  const says = [...SILENT].flatMap((nutrient) => {
    const range = closed.get(nutrient);
    if (range) {
      const { high } = content[nutrient];
      const most = high > 0 ? `up to ${formatNumber(high, 3)}` : 'none of it';
      const counted = high < range.high ? `; a cap counts ${most}, by the charges left over` : '';
      return [`${nutrient} is not stated: ${spelled(range, per)} ${by}${counted}.`];
    }
    const ruledOut = was[nutrient].stated === null && was[nutrient].high > 0 && content[nutrient].high === 0;
    return ruledOut ? [`${nutrient} is not stated, and ${WHAT[from]} bring none.`] : [];
  });
  const forms = [...closed].filter(([n]) => isForm(n));
  const narrower = forms.some(([n, { low, high }]) => low > 0 || high < was[n].high * (1 - 1e-3));
  const nitrogen = narrower ? forms.map(([n, range]) => `${n} ${spelled(range, per)}`) : [];
  if (nitrogen.length > 0) says.unshift(`Forms of nitrogen ${by}: ${nitrogen.join('; ')}.`);
  const told = kept.flatMap((s) => {
    if (s.startsWith(COUNTED_AS_NONE)) return withoutRanges(s, closed);
    return [nitrogen.length > 0 ? s.replace(ALL_AMMONIUM, '') : s];
  });
  return before < 0 ? [...told, ...says] : [...told.slice(0, before), ...says, ...told.slice(before)];
}

const COUNTED_AS_NONE = 'Not stated and counted as none: ';

/** What a range is told of now counts as none no longer. */
function withoutRanges(says: string, closed: NonNullable<Composition['closed']>): string[] {
  const names = says.slice(COUNTED_AS_NONE.length, -1).split(', ');
  const left = names.filter((n) => !closed.has(n as Nutrient));
  return left.length === 0 ? [] : [`${COUNTED_AS_NONE}${left.join(', ')}.`];
}

/** No longer true once the forms are narrowed: a cap counts the most that the salts named bring. */
const ALL_AMMONIUM = '; a cap on ammonium counts all of it';

const WHAT = { sources: 'the salts named', 'label alone': 'plausible counter-ions' };

const spelled = ({ low, value, high }: Range & { value: number }, per: 'g' | 'mL'): string =>
  `about ${formatNumber(value, 3)} mg/${per} (${formatNumber(low, 3)} to ${formatNumber(high, 3)})`;
