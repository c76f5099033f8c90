import type { Sure } from '../../blend/given-types.js';
import type { Sureness } from '../../chance/sure.js';
import type { MissableLimit } from '../../feed/limits.js';
import type { ElementLine } from '../../feed/results.js';
import { figure } from '../figures.js';
import { missName } from './limits.js';
import { shortSays } from './given.js';

/** How sure doses are, for a sheet: the share of batches, what is most at risk, what most of it comes from, and the 90 % intervals. */
export function surenessLines(sure: Sureness, elements: readonly ElementLine[], wanted: Sure | null = null): string[] {
  const risks = riskText(sure);
  const held = intervals(sure, elements);
  const asked = wanted !== null && sure.share < wanted.wanted ? ` ${keeping(wanted.wanted)} were asked for.` : '';
  return [
    `${cansSay(sure.share)} keep every limit, as hands, jars and water vary.${asked}`,
    ...(risks === '' ? [] : [`Most at risk: ${risks}.`]),
    ...sourceLine(sure),
    ...(wanted === null ? [] : shortSays(wanted)),
    ...(held === '' ? [] : [`Nine of ten cans hold, in mg/L: ${held}.`]),
  ];
}

/** What spoils cans, and what would help: for the first screen, where too few keep the limits. */
export const spoiledSays = (sure: Sure): string[] => {
  if (sure.share >= sure.wanted) return [];
  const risks = riskText(sure.sureness);
  return [...(risks === '' ? [] : [`Cans are lost by ${risks}.`]), ...shortSays(sure)];
};

/** Only these many limits are named. */
const NAMED = 3;
/** Below this share of batches a risk is not worth ink. */
const INK = 0.005;
/** A source is named if so many more batches of 100 would hold without it. */
const TELLING = 0.05;

function riskText({ risks }: Sureness): string {
  return risks
    .filter((risk) => risk.share >= INK)
    .slice(0, NAMED)
    .map(({ limit, share }) => `${riskName(limit)} (${Math.round(100 * share)} of 100)`)
    .join(', ');
}

/** `Ca too low`, `EC too high`; a rule is named by its own words. */
function riskName(limit: MissableLimit): string {
  if (limit.kind === 'rule') return missName(limit);
  return `${limit.kind === 'ec' ? 'EC' : limit.nutrient} too ${limit.end === 'least' ? 'low' : 'high'}`;
}

function sourceLine({ share, sources }: Sureness): string[] {
  const [first] = sources;
  if (!first || first.shareWithout < share + TELLING) return [];
  return [
    `Most of it comes from ${SOURCE_NAMES[first.source]}: without that, ${keeping(first.shareWithout)} of 100 would hold.`,
  ];
}

const SOURCE_NAMES: Readonly<Record<Sureness['sources'][number]['source'], string>> = {
  spoons: 'the spread of level spoons',
  drops: 'the spread of drops',
  syringe: 'the marks of the syringe',
  scale: 'the error of the scale',
  pen: 'the error of the pen',
  'bulk density': 'the bulk density (weigh ten level spoons of your own jar)',
  labels: 'jars that hold more or less than their labels say',
  water: 'the fill mark (weigh the water: a litre is a kilogram)',
};

/** Intervals of the elements that have a band, in the order of a label. */
function intervals({ elements }: Sureness, lines: readonly ElementLine[]): string {
  const banded = new Set(lines.filter((e) => e.min !== null || e.max !== null).map((e) => e.element));
  return elements
    .filter(({ element, high }) => banded.has(element) && high > 0)
    .map(({ element, low, high }) => `${element} ${figure(low)} to ${figure(high)}`)
    .join(', ');
}

/** `About 93 of 100 cans`. */
export const cansSay = (share: number): string =>
  share === 0
    ? 'None of 100 cans'
    : share < 0.01
      ? 'Less than 1 of 100 cans'
      : share === 1
        ? 'All of 100 cans'
        : `About ${keeping(share)} of 100 cans`;

/** Whole batches, rounded down: never more than was counted. */
function keeping(share: number): string {
  return share > 0 && share < 0.01 ? 'less than 1' : `${Math.floor(100 * share + 1e-9)}`;
}
