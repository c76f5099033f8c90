import { ION_NUTRIENTS, type Ions, mmolPerMg } from '../chemistry/ions.js';
import type { Nutrient, PerNutrient } from '../chemistry/nutrients.js';
import type { Composition, Content } from './composition.js';
import type { ClosedBy, LeftOpen, LikelyRange } from './left-open.js';
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
  from: ClosedBy,
): Composition {
  const content = { ...composition.content };
  const closed = new Map<Nutrient, LikelyRange>();
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
  return { ...composition, content, closed, open: stillOpen(composition, content, closed, from) };
}

/** Below a millionth of a mg an amount is the arithmetic of the program. */
const none = (mg: number): number => (mg > 1e-6 ? mg : 0);

function likeliest(likely: PerNutrient<number> | Ions, nutrient: Nutrient): number {
  if (!('alkalinity' in likely)) return likely[nutrient];
  const ion = (Object.keys(ION_NUTRIENTS) as (keyof typeof ION_NUTRIENTS)[]).find((i) => ION_NUTRIENTS[i] === nutrient);
  return ion === undefined ? 0 : likely[ion] / mmolPerMg(ion);
}

/** What is open still: ranges of the closure in the place of what was only not stated. */
function stillOpen(
  { open, per, content: was }: Composition,
  content: PerNutrient<Content>,
  closed: NonNullable<Composition['closed']>,
  by: ClosedBy,
): LeftOpen[] {
  const silent = [...SILENT].flatMap((nutrient): LeftOpen[] => {
    const range = closed.get(nutrient);
    if (range) return [{ kind: 'closed', nutrient, range, per, by, ceiling: content[nutrient].high }];
    const ruledOut = was[nutrient].stated === null && was[nutrient].high > 0 && content[nutrient].high === 0;
    return ruledOut ? [{ kind: 'ruled out', nutrient, by }] : [];
  });
  const forms = [...closed].flatMap(([form, range]) => (isForm(form) ? [{ form, range }] : []));
  const narrower = forms.some(({ form, range }) => range.low > 0 || range.high < was[form].high * (1 - 1e-3));
  const told: LeftOpen[] = [
    ...(narrower ? [{ kind: 'nitrogen forms closed', forms, per, by } as const] : []),
    ...silent,
  ];
  const kept = open.filter((left) => left.kind !== 'not stated' || !SILENT.has(left.nutrient));
  const now = kept.flatMap((left): LeftOpen[] => {
    if (left.kind === 'counted as none') {
      const nutrients = left.nutrients.filter((n) => !closed.has(n));
      return [...told, ...(nutrients.length === 0 ? [] : [{ ...left, nutrients }])];
    }
    // a cap counts the most that the salts named bring
    return [left.kind === 'nitrogen form' && narrower ? { ...left, cap: 'as told' } : left];
  });
  return kept.some((left) => left.kind === 'counted as none') ? now : [...now, ...told];
}
