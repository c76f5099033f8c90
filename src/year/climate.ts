import type { Hemisphere, SeasonFigures } from '../catalog/bench-types.js';
import type { RestRow } from '../catalog/practice.js';

/** Where and how plants stand through the twelve months, January first. */
export interface Climate {
  hemisphere: Hemisphere;
  /** Who said which half of the world: the grower, or the own figures by their brightest or warmest half of the year; else it is assumed. */
  hemisphereBy: 'said' | 'light' | 'temperature' | 'assumed';
  /** Whether each month is a growing month, and if not why; for plants without months of rest of their own. */
  months: readonly MonthOfYear[];
  /** True where light or temperature are the grower's own. */
  isOwn: boolean;
}

/** One month of the year. */
export interface MonthOfYear {
  month: number;
  /** As the grower gave it; null where he did not. */
  light: number | null;
  temperatureC: number | null;
  /** Share of the brightest month's light; null without figures. */
  share: number | null;
  isRest: boolean;
  /** Why it is a month of rest; empty where it is none. */
  why: readonly ('season' | 'dim' | 'cool')[];
}

/** Below this share of the brightest month plants rest (common practice, no source). */
export const DIM = 0.5;
/** Below this mean temperature, °C, the medium's nitrifiers are held back (Mattson 2011), and plants hardly grow. */
export const COOL = 15;

/**
 * The months of a grower's year. Own light or temperature decide where they are given: a month rests below half the light of the brightest, or
 * below 15 °C. Otherwise the months of the catalog do, of the half of the world that was said; the north where nobody said.
 */
export function climateOf(figures: SeasonFigures, rests: readonly RestRow[]): Climate {
  const { light, temperature } = figures;
  const { hemisphere, by } = hemisphereOf(figures);
  const usual = monthsOfRest('*', hemisphere, rests);
  const brightest = light === undefined ? 0 : Math.max(...light);
  const isOwn = light !== undefined || temperature !== undefined;
  const months = YEAR.map((month): MonthOfYear => {
    const share = light === undefined ? null : brightest > 0 ? light[month - 1]! / brightest : 1;
    const temperatureC = temperature?.[month - 1] ?? null;
    const why = isOwn
      ? [
          ...(share !== null && share < DIM ? (['dim'] as const) : []),
          ...(temperatureC !== null && temperatureC < COOL ? (['cool'] as const) : []),
        ]
      : usual.has(month)
        ? (['season'] as const)
        : [];
    return { month, light: light?.[month - 1] ?? null, temperatureC, share, isRest: why.length > 0, why };
  });
  return { hemisphere, hemisphereBy: by, months, isOwn };
}

/** Months in which a plant group rests: its own row of the catalog, or what light and temperature say. */
export function restsOf(plants: string, climate: Climate, rests: readonly RestRow[]): ReadonlySet<number> {
  if (rests.some((row) => row.plants === plants)) return monthsOfRest(plants, climate.hemisphere, rests);
  return new Set(climate.months.filter(({ isRest }) => isRest).map(({ month }) => month));
}

/** The months of a row, six later in the south; they may run over the end of the year. */
function monthsOfRest(plants: string, hemisphere: Hemisphere, rests: readonly RestRow[]): ReadonlySet<number> {
  const { from, to } = rests.find((row) => row.plants === plants)!;
  const count = ((to - from + 12) % 12) + 1;
  const shift = hemisphere === 'south' ? 6 : 0;
  return new Set(Array.from({ length: count }, (_, i) => ((from - 1 + i + shift) % 12) + 1));
}

function hemisphereOf({ hemisphere, light, temperature }: SeasonFigures): {
  hemisphere: Hemisphere;
  by: Climate['hemisphereBy'];
} {
  if (hemisphere !== undefined) return { hemisphere, by: 'said' };
  for (const [by, figures] of [
    ['light', light],
    ['temperature', temperature],
  ] as const) {
    const more = figures === undefined ? 0 : summer(figures);
    if (more !== 0) return { hemisphere: more > 0 ? 'north' : 'south', by };
  }
  return { hemisphere: 'north', by: 'assumed' };
}

/** How much more there is from April to September than in the other half of the year. */
const summer = (figures: readonly number[]): number =>
  figures.reduce((sum, value, i) => sum + (i >= 3 && i <= 8 ? value : -value), 0);

const YEAR = Array.from({ length: 12 }, (_, i) => i + 1);
