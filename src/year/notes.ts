import { COOL } from './climate.js';
import { compiledPractice } from './compiled-practice.js';
import type { ProductYear, SeasonAsked, SeasonFeed, SeasonMix, SeasonNote } from './season-types.js';

/** Share of nitrogen as ammonium and urea from which a cool month is told; a judgement of ours. */
const MUCH_AMMONIUM = 0.25;

/** What is worth knowing beside a year of feed. */
export function notesOf(
  { climate, feeds: asked }: SeasonAsked,
  feeds: readonly SeasonFeed[],
  mixes: readonly SeasonMix[],
  products: readonly ProductYear[],
): SeasonNote[] {
  const named = (
    kind: 'stock unknown' | 'no pack' | 'no price',
    which: (product: ProductYear) => boolean,
  ): SeasonNote[] => {
    const found = products.filter(which).map(({ id }) => id);
    return found.length === 0 ? [] : [{ kind, products: found }];
  };
  const of = (kind: 'no doses' | 'missed' | 'watered once a week', names: readonly string[]): SeasonNote[] =>
    names.length === 0 ? [] : [{ kind, feeds: [...new Set(names)] }];
  const without = feeds.filter(({ spans }) =>
    spans.some(({ state }) => state.kind === 'none' && state.why === 'no doses'),
  );
  return [
    ...(climate.hemisphereBy === 'assumed' && asked.some(({ spec }) => goesByHemisphere(spec.plants, climate))
      ? [{ kind: 'hemisphere assumed' } as const]
      : []),
    ...of(
      'no doses',
      without.map(({ name }) => name),
    ),
    ...of(
      'missed',
      mixes.filter(({ isKept }) => !isKept).flatMap((mix) => mix.feeds.map(({ name }) => name)),
    ),
    ...of(
      'watered once a week',
      feeds.filter(({ pots }) => pots.weeklyAssumed).map(({ name }) => name),
    ),
    ...named('stock unknown', ({ onHand }) => onHand === null),
    ...named('no pack', ({ runsOut, pack }) => runsOut !== null && pack === null),
    ...named('no price', ({ cost }) => cost === null),
    ...coolAmmonium(climate, asked, mixes),
  ];
}

/** Own light and temperature decide for all plants but those with months of rest of their own. */
const goesByHemisphere = (plants: string, { isOwn }: SeasonAsked['climate']): boolean =>
  !isOwn || compiledPractice.rests.some((row) => row.plants === plants);

/** Feeds rich in ammonium that are given in months in which the medium hardly turns it to nitrate. */
function coolAmmonium(
  { months }: SeasonAsked['climate'],
  feeds: SeasonAsked['feeds'],
  mixes: readonly SeasonMix[],
): SeasonNote[] {
  const cool = months.filter(({ temperatureC }) => temperatureC !== null && temperatureC < COOL);
  const told = feeds.flatMap(({ spec, months: own }) => {
    const shares = cool.flatMap(({ month }) => {
      const { state } = own[month - 1]!;
      return state.kind === 'fed' ? (mixes[state.mix]?.ammoniumAndUrea ?? 0) : [];
    });
    const share = Math.max(0, ...shares);
    return share >= MUCH_AMMONIUM ? [{ name: spec.name, share }] : [];
  });
  return told.length === 0 ? [] : [{ kind: 'cool ammonium', months: cool.map(({ month }) => month), feeds: told }];
}
