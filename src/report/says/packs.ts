import { formatNumber } from '../../units/index.js';
import {
  keepsLimits,
  type LookedFor,
  type LookFor,
  type Pack,
  type PurchaseOption,
  type Way,
} from '../../purchase/types.js';
import { amount, figure, money } from '../figures.js';
import { violatedName } from './limits.js';
import { listed } from './listed.js';
import { nearSays } from './given.js';

/** `2 bags of 500 g Calcium nitrate`, `1 bottle of 250 mL Trace Liquid (invented)`. */
export function packSays({ id, name, count, pack, unit, isInvented }: Pack): string {
  const vessel = unit === 'g' ? 'bag' : 'bottle';
  const invented = isInvented ? ' (invented)' : '';
  return `${count} ${vessel}${count === 1 ? '' : 's'} of ${packSize(pack, unit)} ${name === '' ? id : name}${invented}`;
}

/** All packs of an option in one line. */
export const packsSay = ({ packs }: Pick<PurchaseOption, 'packs'>): string =>
  packs.length === 0 ? 'nothing' : packs.map(packSays).join(', ');

/** Weeks of a year. */
const YEAR = 52;

/** `14.2 EUR the first year, 6.1 EUR a year later`. */
export function moneySays(
  { total, laterYears }: Pick<PurchaseOption, 'total' | 'laterYears'>,
  weeks: number,
  currency: string,
): string {
  const first = weeks === YEAR ? 'the first year' : `for ${weeks} weeks`;
  const later = laterYears === null ? '' : `, then ${money(laterYears, currency)} a year for what is used`;
  return `${money(total, currency)} ${first}${later}`;
}

/** `moss and bark near their aims, 96 of 100 cans`; empty where no feed was made out as doses. */
export function feedsSay({ feeds }: PurchaseOption): string {
  const given = feeds.flatMap(({ feed, given }) => (given ? [{ name: feed.name, given }] : []));
  if (given.length === 0) return '';
  const near = given.filter(({ given }) => isNear(given.near));
  const told = [
    ...(near.length === 0
      ? []
      : [`${listed(near.map(({ name }) => name))} near ${near.length === 1 ? 'its' : 'their'} aims`]),
    ...given.filter((one) => !near.includes(one)).map(({ name, given }) => `${name} ${nearSays(given.near)}`),
  ];
  return `${told.join(', ')}; at least ${leastCans(feeds)} of 100 cans keep the limits`;
}

/** `NOT EVERY LIMIT IS KEPT as this kit measures bark (K)`; null where doses keep what hurts and what plants need. */
export function missedSays(option: Pick<PurchaseOption, 'feeds'>): string | null {
  if (keepsLimits(option)) return null;
  const told = option.feeds
    .filter(({ missed, isLost }) => isLost || missed.length > 0)
    .map(({ feed, missed, isLost }) => {
      const names = [...new Set(missed.map(missedName))];
      const some = `${names.slice(0, MISSED).join(', ')}${names.length > MISSED ? ', …' : ''}`;
      return `${feed.name}${names.length > 0 ? ` (${some})` : ''}${isLost ? ': none can be given' : ''}`;
    });
  return `NOT EVERY LIMIT IS KEPT as this kit measures ${listed(told)}`;
}

const MISSED = 3;

const missedName = ({ limit, bound }: PurchaseOption['feeds'][number]['missed'][number]): string =>
  limit.kind === 'nutrient'
    ? `${limit.nutrient} too ${limit.end === 'most' ? 'much' : 'little'}`
    : limit.kind === 'ec'
      ? 'EC too high'
      : violatedName(limit, figure(bound));

const isNear = (near: Parameters<typeof nearSays>[0]): boolean => nearSays(near) === 'near its aims';

/** Cans of a hundred, rounded down, in the feed that is least sure. */
export function leastCans(feeds: PurchaseOption['feeds']): number {
  const shares = feeds.flatMap(({ given }) => (given ? [given.sure.share] : []));
  return Math.floor(100 * Math.min(1, ...shares) + 1e-9);
}

const WAYS: Readonly<Record<Way, string>> = {
  cheapest: 'cheapest',
  simplest: 'fewest new jars',
  nearest: 'nearest to the aims',
};

/** `cheapest and fewest new jars`. */
export const waysSay = (ways: readonly Way[]): string => listed(ways.map((way) => WAYS[way]));

/** `500 g`, `1 kg`, `1.5 L`. */
const packSize = (pack: number, unit: Pack['unit']): string =>
  pack < 1000 ? amount(pack, unit) : `${figure(pack / 1000)} ${unit === 'g' ? 'kg' : 'L'}`;

const PRINTED: Readonly<Partial<Record<LookedFor['figure'], string>>> = { P: 'P2O5', K: 'K2O' };

/** `a powder near 10-4-13: N 10–13 %, …; at least 90 % of its nitrogen as nitrate; with trace elements`. */
export function labelSays({ form, figures, nitrate, traces }: LookFor): string {
  const now = (nutrient: LookedFor['figure']): string =>
    figure2(figures.find((one) => one.figure === nutrient)?.now ?? 0);
  const ranges = figures.map(
    ({ figure: n, least, most }) =>
      `${PRINTED[n] ?? n} ${figure2(least) === figure2(most) ? figure2(least) : `${figure2(least)}–${figure2(most)}`} %`,
  );
  const share =
    nitrate === null || !(nitrate > 0)
      ? []
      : [
          nitrate > 0.995
            ? 'all its nitrogen as nitrate'
            : `at least ${figure2(100 * nitrate)} % of its nitrogen as nitrate`,
        ];
  // without nitrogen, phosphate and potash there is no grade to look for
  const grade = figures.length === 0 ? `a ${form}` : `a ${form} near ${now('N')}-${now('P')}-${now('K')}`;
  const told = ranges.length === 0 ? grade : `${grade}: ${ranges.join(', ')}`;
  return [told, ...share, ...TRACES[traces]].join(ranges.length === 0 ? ' ' : '; ');
}

const figure2 = (value: number): string => formatNumber(value, 2);

const TRACES: Readonly<Record<LookFor['traces'], string[]>> = {
  none: [],
  either: ['with or without trace elements'],
  needed: ['with trace elements'],
};
