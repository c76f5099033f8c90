import { atDoor } from '../../door.js';
import type { Alternative, Cause, CheckFirst, Doing, MeterResult, SettledRemedy, Span } from '../../meter/index.js';
import { volumeText } from '../volume.js';
import { formatNumber } from '../../units/index.js';
import { shown } from '../sheet-page/readings.js';
import { causeBriefly, checkSays } from './cause.js';
import { shownSays } from './pen.js';
import { toldSays } from './told.js';
import { lookAtSays } from './meter.js';
import { doingClauses, stepsInBrief } from './remedy.js';

/** The answer in one sentence. */
export function verdictSays(result: MeterResult): string {
  switch (result.verdict) {
    case 'good':
      return 'Good. Feed it.';
    case 'a little off':
      return 'A little off; feed it.';
    case 'top up':
      return 'Top up to the mark, then feed.';
    case 'mend':
      return 'Don’t feed yet: mend it first.';
    case 'find out':
      return `Don’t feed yet: find out whether ${whetherSays(result)}.`;
    case 'do not feed':
      return 'Don’t feed it.';
    default:
      return result.verdict satisfies never;
  }
}

/** What is to be found out, as a clause. */
function whetherSays(result: MeterResult): string {
  const { judgement, remedy, litres, plannedLitres } = result;
  const contradiction = judgement.told?.agrees === false ? contradictionSays(result) : null;
  if (contradiction !== null) return contradiction;
  if (judgement.verdict === 'beyond') return 'the pen shows the same once more';
  if (remedy.status === 'check first') {
    const [first, second] = remedy.alternatives.map(({ cause }) => causeBriefly(cause, result));
    return `${first}${second === undefined ? '' : `, or ${second}`}`;
  }
  const [likeliest] = judgement.causes;
  // a can that reads as its doses do in the water that was measured
  const misfilled = judgement.verdict === 'within' && litres !== plannedLitres;
  return misfilled || likeliest === undefined
    ? 'there is as much in the can as was measured'
    : causeBriefly(likeliest, result);
}

/** What was said, and what the pen says against it: told first of all. */
function contradictionSays(result: MeterResult): string {
  const { judgement, pen } = result;
  const told = judgement.told!;
  const said = result.told.map((way) => toldSays(way, result)).join(', or ');
  // the reading that is furthest off
  const at = judgement.readings
    .map(({ mSPerCm }, j) => ({ j, off: Math.abs(mSPerCm - told.ways[0]!.expected[j]!.mSPerCm) }))
    .sort((a, b) => b.off - a.off)[0]!.j;
  const spans = told.ways.map(({ expected }) => shown(expected[at]!, pen.scale ?? 'EC'));
  return `${said}, as you said: the pen shows ${shownSays(judgement.readings[at]!.shown)}, where that would show ${spans.join(' or ')}`;
}

/** What to do, in at most five lines; none where it is to be fed and no more. */
export function todoLines(result: MeterResult): string[] {
  const { judgement, remedy, verdict } = result;
  if (judgement.verdict === 'beyond') return judgement.lookAt.map((look) => lookAtSays(look, result));
  const [likeliest] = judgement.causes;
  const look = likeliest === undefined || judgement.verdict === 'within' ? [] : [lookSays(likeliest, result)];
  switch (remedy.status) {
    case 'none':
      if (result.completion !== null) return completionLines(result);
      return verdict === 'good' ? [] : look;
    case 'feed':
    case 'improve':
      return judgement.told?.agrees === false ? [lookAtSays({ kind: 'read once more' }, result)] : [];
    case 'do not feed':
      return never(result);
    case 'check first':
      return verdict === 'do not feed' ? never(result) : checkFirstLines(remedy, result);
    case 'rescue': {
      const steps = stepsInBrief(remedy.doing);
      const lines = [...(verdict === 'find out' ? look : []), ...steps, readAgain(remedy, result)];
      return [...lines, ...elsewhereLines(result, 'what you pour off')].slice(0, MOST_LINES);
    }
    default:
      return remedy satisfies never;
  }
}

/** How to find out whether it was that, the cheapest first. */
export const lookSays = (cause: Cause, result: MeterResult): string =>
  `${stirFirst(cause, result)}${checkSays(cause, result)}`;

/** No programme says what the plants want: the recipe is completed, in two jugs where it would run over. */
function completionLines({ completion, capacityLitres, plannedLitres }: MeterResult): string[] {
  const { add, fillTo, batches } = completion!;
  if (add.length === 0 && fillTo === null) return [];
  const doses = add.map(({ name, unit, amount }) => `${formatNumber(amount, 3)} ${unit} ${name}`);
  const jugs = (fillTo ?? 0) > capacityLitres * (1 + 1e-6) ? 2 : 1;
  const level = fillTo === null ? '' : volumeText(fillTo / jugs);
  return [
    ...(doses.length > 0 ? [`Add ${doses.join(' and ')}, stirring until it is clear.`] : []),
    ...(jugs > 1 ? ['Pour half into a second jug.'] : []),
    ...(fillTo === null ? [] : [`Fill ${jugs > 1 ? 'both ' : ''}up with water to ${level}.`]),
    batches > 1.02
      ? `It is then ${formatNumber(batches, 3)} times your recipe for ${volumeText(plannedLitres)}, as strong as it was to be.`
      : 'It is then your recipe.',
  ];
}

/** Cheapest of all: a powder that lies on the bottom reads as one that is missing. */
const stirFirst = ({ fault, value }: Cause, { plan }: MeterResult): string =>
  fault.kind === 'item' && value.likely < 1 && plan[fault.item]!.unit === 'g'
    ? 'Stir until nothing lies on the bottom, wait ten minutes and read again. '
    : '';

const MOST_LINES = 5;

const never = (result: MeterResult): string[] => [
  'Nothing within the room of two jugs and your shelf brings every limit back.',
  ...elsewhereLines(result, 'it').slice(0, MOST_LINES - 2),
  result.elsewhere.length > 0
    ? 'Else pour it where local rules allow. Mix anew.'
    : 'Pour it where local rules allow, and mix anew.',
];

/** Who else can have it, as thin as they want it. */
const elsewhereLines = ({ elsewhere }: MeterResult, what: string): string[] =>
  elsewhere.map(({ feed, outdoors, waterEach, sure }) => {
    const thinned = waterEach === 0 ? '' : ` with ${formatNumber(waterEach, 2)} L of water to each litre`;
    return outdoors
      ? `Houseplants that stand outdoors can have ${what}${thinned}, where labels and local rules allow it.`
      : `For ${feed.name} ${what} will do${thinned} (${Math.round(100 * sure)} of 100 such cans).`;
  });

/** `Stir, wait a minute and read again: about 120 ppm.` */
const readAgain = ({ mix }: SettledRemedy, { pen }: MeterResult): string =>
  `Stir, wait a minute and read again: about ${shown(mix.ec, pen.scale ?? 'EC')}.`;

const MOST_WAYS = 3;

function checkFirstLines({ alternatives, unknowing }: CheckFirst, result: MeterResult): string[] {
  const told = alternatives.slice(0, MOST_WAYS);
  const apart = result.judgement.told?.apart;
  if (apart) return byPenLines({ alternatives: told, unknowing }, apart, result);
  const looks = [...new Set(told.slice(0, 2).map(({ cause }) => lookSays(cause, result)))];
  const ways = told.map(({ cause, asks }) => `If ${causeBriefly(cause, result)}: ${asksSays(asks)}.`);
  return [looks.join(' '), ...ways, `If you cannot find out: ${asksSays(unknowing)}.`];
}

/** What was said may be two things that the pen tells apart: read first, mend in the dark last. */
function byPenLines(
  { alternatives, unknowing }: Pick<CheckFirst, 'alternatives' | 'unknowing'>,
  apart: readonly Span[],
  result: MeterResult,
): string[] {
  const { told, pen } = result;
  const good = alternatives.filter(({ asks }) => asks.status === 'feed');
  const reads = [...good, ...alternatives.filter((one) => !good.includes(one))].map(({ cause: { fault }, asks }) => {
    const way = fault.kind === 'said' ? fault.way : told.findIndex(({ slips }) => slips.length === 0);
    return `about ${shown(apart[way]!, pen.scale ?? 'EC')}: ${asksSays(asks)}`;
  });
  const look = alternatives.find(({ cause }) => cause.fault.kind === 'said');
  return [
    `Read the pen: ${reads.join('; ')}.`,
    atDoor({
      typed: 'Where it shows something between, ask again with --reading beside --did.',
      page: 'Where it shows something between, judge it again with that reading.',
    }),
    ...(look === undefined ? [] : [lookSays(look.cause, result)]),
    `Without a pen: ${asksSays(unknowing, 'stir, feed')}.`,
  ];
}

/** @param last what follows it */
const asksSays = (asks: Alternative['asks'] | SettledRemedy, last = 'stir, read again, feed'): string =>
  waySays(asks.status, 'doing' in asks ? asks.doing : null, last);

function waySays(status: SettledRemedy['status'], doing: Doing | null, last: string): string {
  if (status === 'do not feed') return 'do not feed it';
  if (status !== 'rescue' || doing === null) return 'feed it as it is';
  return `${doingClauses(doing).join('; ')}; ${last}`;
}
