import type { NotSureEnough, SureEnough, SureRemedy } from '../../chance/robust-types.js';
import type { Source } from '../../chance/varying.js';
import { formatNumber, formatUpTo } from '../../units/format.js';

/** What sure doses come to and what that costs, in a sentence or three. */
export function sureSays(result: SureEnough | NotSureEnough): string {
  const { wanted, share, tightened } = result;
  if (result.status === 'short')
    return [`${shortSays(result)}.`, blameSays(result), remediesSay(result)].filter(Boolean).join(' ');
  const of = `About ${hundredths(share)} of 100 batches keep every limit, ${hundredths(wanted)} were asked for`;
  if (tightened === 0) return `${of}: the plain doses do, at no extra cost.`;
  return `${of}: the limits were tightened by ${formatNumber(tightened, 2)} of their standard deviations. ${costsSay(result)}`;
}

function shortSays({ wanted, share }: NotSureEnough): string {
  return `No doses found keep every limit in ${hundredths(wanted)} of 100 batches; the surest keep them in ${hundredths(share)}${share < wanted ? '' : ', too near to promise it'}`;
}

function costsSay({ extraCostPerLitre, extraDeviation, plain, plan }: SureEnough): string {
  const { goal, header } = plan.request;
  const parts: string[] = [];
  if (goal === 'closest' || extraCostPerLitre === null) {
    const before = plain.largestDeviation;
    const by = `${formatNumber(100 * (before + extraDeviation), 2)} % instead of ${formatNumber(100 * before, 2)} %`;
    parts.push(`the largest miss from an aim is ${by}`);
  }
  if (extraCostPerLitre !== null) {
    const extra = Math.abs(extraCostPerLitre);
    const money = `${formatNumber(extra, 3)} ${header.currency}`.trim();
    const whole = plain.costPerLitre > 0 ? ` (${formatNumber((100 * extra) / plain.costPerLitre, 2)} %)` : '';
    const word = extraCostPerLitre < 0 ? 'less' : 'more';
    parts.push(extraCostPerLitre === 0 ? 'it costs no more' : `it costs ${money} per litre ${word}${whole}`);
  }
  return `Against the plain doses ${parts.join(', and ')}.`;
}

const NAMES: Readonly<Record<Source, string>> = {
  spoons: 'the spread of level spoons',
  drops: 'the spread of drops',
  syringe: 'the marks of the syringe',
  scale: 'the error of the scale',
  pen: 'the error of the pen (check it in its standard)',
  'bulk density': 'the bulk density (weigh ten level spoons of your own jar)',
  labels: 'what jars hold beside their labels',
  water: 'the filling of the can (weigh the water: a litre is a kilogram)',
};

function blameSays({ blame }: NotSureEnough): string {
  return blame === null
    ? 'No single spread is to blame: the limits leave too little room for all together.'
    : `Most to blame is ${NAMES[blame.source]}: without it, ${hundredths(blame.shareWithout)}.`;
}

function remediesSay({ remedies }: NotSureEnough): string {
  if (remedies.length === 0) return '';
  return `It would help to take ${remedies.map((remedy) => `${remedySays(remedy)} (${hundredths(remedy.share)} of 100)`).join(', or ')}.`;
}

const remedySays = (remedy: SureRemedy): string =>
  remedy.kind === 'batch'
    ? `a batch of ${formatNumber(remedy.litres, 4)} L`
    : `a ${formatNumber(remedy.stepGrams)} g scale`;

/** Whole hundredths, rounded down; tenths next to certainty. */
function hundredths(share: number): string {
  const percent = 100 * share;
  return percent > 99 && percent < 100
    ? formatUpTo(Math.floor(10 * percent) / 10, 1)
    : formatUpTo(Math.floor(percent + 1e-9), 0);
}
