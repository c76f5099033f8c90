import type { Kit } from '../catalog/bench-types.js';
import type { FeedRequest } from '../feed/request.js';
import { formatNumber } from '../units/index.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { SureDoses, SureDosesOptions, SureRemedy } from './robust-types.js';
import type { Source } from './varying.js';

type Again = (request: FeedRequest, kit: Kit, share: number, options: SureDosesOptions) => Promise<SureDoses>;

/** What could be done about it: another tool, a larger batch; each by planning again, the best first, none that does not help. */
export async function remediesFor(
  result: SureDoses,
  request: FeedRequest,
  kit: Kit,
  again: Again,
  options: SureDosesOptions,
): Promise<SureRemedy[]> {
  const litres = request.header.batchLitres!;
  const double = { ...request, header: { ...request.header, batchLitres: 2 * litres } };
  const finer = kit.scaleStepGrams === undefined || kit.scaleStepGrams > FINE;
  const tries: { change: string; request: FeedRequest; kit: Kit }[] = [
    { change: `a batch of ${formatNumber(2 * litres, 4)} L`, request: double, kit },
    ...(finer ? [{ change: `a ${FINE} g scale`, request, kit: withScale(kit) }] : []),
  ];
  const found: SureRemedy[] = [];
  for (const { change, request: other, kit: tools } of tries) {
    const { share } = await again(other, tools, result.wanted, { ...options, remedies: false });
    if (share > result.share + HELPS) found.push({ change, share });
  }
  return found.sort((a, b) => b.share - a.share);
}

const FINE = 0.01;
/** A remedy worth naming. */
const HELPS = 0.02;

function withScale({ scaleErrorGrams: _, ...kit }: Kit): Kit {
  return { ...kit, scaleStepGrams: FINE };
}

/** What the doses come to and what that costs, in a sentence or three. */
export function sentenceOf(result: SureDoses, plain: DosePlan): string {
  const { status, wanted, share, k } = result;
  if (status === 'short') return [`${shortOf(result)}.`, blame(result), remedies(result)].filter(Boolean).join(' ');
  const of = `About ${hundredths(share)} of 100 batches keep every limit, ${hundredths(wanted)} were asked for`;
  if (k === 0) return `${of}: the plain doses do, at no extra cost.`;
  return `${of}: the limits were moved in by ${formatNumber(k, 2)} of their standard deviations. ${costs(result, plain)}`;
}

function shortOf({ wanted, share }: SureDoses): string {
  return `No doses found keep every limit in ${hundredths(wanted)} of 100 batches; the surest keep them in ${hundredths(share)}${share < wanted ? '' : ', too near to promise it'}`;
}

function costs({ extraCostPerLitre, extraMiss }: SureDoses, { mix, request }: DosePlan): string {
  const parts: string[] = [];
  if (request.goal === 'closest' || extraCostPerLitre === null) {
    const before = largestMissOf(mix);
    const by = `${formatNumber(100 * (before + extraMiss), 2)} % instead of ${formatNumber(100 * before, 2)} %`;
    parts.push(`the largest miss from an aim is ${by}`);
  }
  if (extraCostPerLitre !== null) {
    const word = extraCostPerLitre < 0 ? 'less' : 'more';
    const money = `${formatNumber(Math.abs(extraCostPerLitre), 3)} ${request.header.currency}`.trim();
    const whole =
      mix.costPerLitre > 0 ? ` (${formatNumber((100 * Math.abs(extraCostPerLitre)) / mix.costPerLitre, 2)} %)` : '';
    parts.push(extraCostPerLitre === 0 ? 'it costs no more' : `it costs ${money} per litre ${word}${whole}`);
  }
  const text = `${parts.join(', and ')}.`;
  return `Against the plain doses ${text}`;
}

const largestMissOf = ({ elements }: DosePlan['mix']): number =>
  elements.reduce((most, e) => (e.aim ? Math.max(most, Math.abs(e.mgPerLitre / e.aim - 1)) : most), 0);

const NAMES: Readonly<Record<Source, string>> = {
  spoons: 'the spread of level spoons',
  drops: 'the spread of drops',
  syringe: 'the marks of the syringe',
  scale: 'the error of the scale',
  'bulk density': 'the bulk density (weigh ten level spoons of your own jar)',
  labels: 'what jars hold beside their labels',
  water: 'the filling of the can (weigh the water: a litre is a kilogram)',
};

/** The source without which most batches would hold. */
function blame({ sureness, share }: SureDoses): string {
  const [first] = sureness?.sources ?? [];
  if (!first || first.shareWithout <= share + HELPS)
    return 'No single spread is to blame: the limits leave too little room for all together.';
  return `Most to blame is ${NAMES[first.source]}: without it, ${hundredths(first.shareWithout)}.`;
}

function remedies({ remedies }: SureDoses): string {
  if (remedies.length === 0) return '';
  return `It would help to take ${remedies.map(({ change, share }) => `${change} (${hundredths(share)} of 100)`).join(', or ')}.`;
}

/** Whole hundredths, rounded down; tenths next to certainty. */
function hundredths(share: number): string {
  const percent = 100 * share;
  return percent > 99 && percent < 100 ? String(Math.floor(10 * percent) / 10) : String(Math.floor(percent + 1e-9));
}
