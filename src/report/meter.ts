import { atDoor } from '../door.js';
import type { Cause, CheckFirst, MeterResult, ReadingLine, SettledRemedy } from '../meter/index.js';
import { cautionBlocks } from './blend.js';
import { amount, figure, percent } from './figures.js';
import { elementBlocks, missLines } from './mix.js';
import { causeSays, checkSays } from './says/cause.js';
import { toldBlocks } from './meter-told.js';
import { todoLines, verdictSays } from './says/verdict.js';
import { meterNoteSays } from './says/meter.js';
import { becauseSays, remedyProofSays, stepLines } from './says/remedy.js';
import { type Block, facts, heading, inFull, list, paragraph, section, type Sheet, table } from './sheet.js';
import { volumeText } from './volume.js';

/** Readings of a can: what they say, what is really in it, what to do. */
export function meterSheet(result: MeterResult): Sheet {
  const { feed } = result;
  return {
    title: verdictSays(result),
    blocks: [
      ...listed(todoLines(result)),
      facts(
        ['Feed', feed === null ? null : feed.name],
        ['Plan', result.plan.map((item) => `${item.words} ${item.name}`.trim()).join(' + ')],
        ['In', volumeText(result.litres)],
        ['Judged as', feed === null ? null : `${feed.plants} in ${feed.medium}, ${feed.phase}, at ${feed.strength}`],
        ['Pen', result.judgement.readings.length === 0 ? null : penText(result)],
      ),
      ...toldBlocks(result),
      ...(result.judgement.readings.length === 0 ? [] : judgementBlocks(result)),
      ...whyBlocks(result),
      ...inFull(actualBlocks(result)),
      ...inFull(remedyBlocks(result)),
      ...(result.judgement.readings.length === 0 ? [] : section('What the pen cannot see', unseenLines(result))),
      ...section('Notes', result.notes.map(meterNoteSays)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

const listed = (lines: readonly string[]): Block[] => (lines.length === 0 ? [] : [list(lines)]);

function judgementBlocks(result: MeterResult): Block[] {
  const { pen, plan, litres, judgement, remedy } = result;
  const { readings } = judgement;
  const onScale = (ec: number): string => (pen.scale === null ? figure(ec) : figure(ec * pen.scale));
  const unit = pen.scale === null ? 'mS/cm' : `ppm, ${pen.scale} scale`;
  const rows = readings.map((line) => [
    momentText(line, plan),
    // the unit below the table says which scale
    `${line.shown.figure} ${line.shown.unit}`,
    onScale(line.mSPerCm),
    onScale(line.expected.mSPerCm),
    `${onScale(line.expected.low)} to ${onScale(line.expected.high)}`,
    line.within ? 'within' : line.mSPerCm < line.expected.low ? 'LOW' : 'HIGH',
  ]);
  const blocks: Block[] = [
    heading('The reading'),
    table(['', '>shown', '>at 25 °C', '>planned', '>9 of 10 good batches', ''], rows),
    paragraph(`At 25 °C in ${unit}.`, 'quiet'),
  ];
  if (judgement.verdict === 'within') {
    const all = readings.every((line) => line.within);
    const asDosed = `Within tolerance: it reads as these doses do in ${volumeText(litres)}.`;
    const against = judgement.told?.agrees === false;
    const reads = against ? AS_PLANNED : remedy.status === 'rescue' ? asDosed : WITHIN;
    blocks.push(paragraph(all ? reads : A_LITTLE_OUTSIDE, against ? undefined : 'good'));
    return blocks;
  }
  if (judgement.verdict === 'beyond') {
    blocks.push(paragraph('No can of this feed shows this, with any single mistake that was considered.', 'bad'));
    return blocks;
  }
  // what was said and fits is told above
  if (judgement.told?.agrees) return [...blocks, ...inFull(causeBlocks(result))];
  return [...blocks, ...causeBlocks(result)];
}

function causeBlocks(result: MeterResult): Block[] {
  const { judgement } = result;
  const { causes, asPlanned } = judgement;
  const blocks: Block[] = [];
  const told = causes
    .filter((cause) => cause.probability >= WORTH_TELLING || cause === causes[0])
    .slice(0, MOST_CAUSES);
  blocks.push(
    paragraph(
      judgement.verdict === 'off' && asPlanned >= EVEN
        ? A_LITTLE_OUTSIDE
        : judgement.verdict === 'off'
          ? 'Off: more than spoons, scale, labels, water and pen can account for together.'
          : 'Off, and no single mistake that was considered explains it: it may be two at once. The nearest are named.',
      'bad',
    ),
    heading('What probably happened'),
    table(
      ['', '>likelihood', ''],
      told.map((cause) => [causeSays(cause, result), percent(roundShare(cause.probability)), tieText(cause)]),
    ),
    ...inFull([list([...new Set(told.slice(0, MOST_CHECKS).map((cause) => checkSays(cause, result)))])]),
  );
  if (asPlanned >= WORTH_TELLING)
    blocks.push(paragraph(`That nothing went wrong and chance did it: ${percent(roundShare(asPlanned))}.`));
  return blocks;
}

const WITHIN = 'Within tolerance: nothing here says that anything went wrong.';
const AS_PLANNED = 'It reads as planned.';
const A_LITTLE_OUTSIDE = 'A little outside, as one in ten good batches is: by itself no sign that anything went wrong.';
const WORTH_TELLING = 0.01;
/** From here on chance is likelier than every mistake together. */
const EVEN = 0.5;
const MOST_CAUSES = 5;
const MOST_CHECKS = 3;

const tieText = (cause: Cause): string => (cause.asWell ? 'explains it about as well' : '');

/** Whole per cent: priors are no better. */
const roundShare = (share: number): number => Math.max(0.01, Math.round(100 * share) / 100);

function momentText({ moment }: ReadingLine, plan: MeterResult['plan']): string {
  if (moment === 'end') return 'the full can';
  if (moment === 0) return 'step 1, the water';
  return `step ${moment + 1}, after ${plan[moment - 1]?.name ?? ''}`;
}

function actualBlocks({ judgement, actual }: MeterResult): Block[] {
  if (judgement.verdict === 'within' || judgement.verdict === 'beyond') return [];
  const rows = actual.map((line) => {
    const show = (x: number): string => (line.unit === 'L' ? `${figure(x)} L` : amount(x, line.unit));
    return [line.name, show(line.planned), show(line.likely), `${show(line.low)} to ${show(line.high)}`];
  });
  return [heading('What is really in the can'), table(['', '>planned', '>likely', '>9 of 10'], rows)];
}

/** Why this remedy: what it rests on, and in how many such cans every limit holds. */
function whyBlocks({ remedy, judgement, ...batch }: MeterResult): Block[] {
  if (remedy.status === 'none') return [];
  const settled = remedy.status === 'check first' ? remedy.unknowing : remedy;
  const because = settled.because.map((one) => paragraph(becauseSays(one, judgement.causes, batch)));
  if (judgement.verdict === 'within' && remedy.status === 'feed') return because;
  return [...because, paragraph(sureText(settled, remedy.status === 'improve'))];
}

/** The remedy at length: every step, what it leads to, and its proof. */
function remedyBlocks(result: MeterResult): Block[] {
  const { remedy } = result;
  if (remedy.status === 'none' || remedy.status === 'feed') return [];
  const settled = remedy.status === 'check first' ? remedy.unknowing : remedy;
  const steps = 'doing' in settled ? stepLines(settled.doing) : [];
  const blocks: Block[] = [heading('Step by step')];
  if (remedy.status === 'check first') blocks.push(...checkFirstBlocks(remedy, result));
  if (remedy.status === 'improve') blocks.push(paragraph(ALL_THE_SAME, 'good'));
  if (steps.length > 0) {
    blocks.push(
      list(steps),
      paragraph(
        `After it, ${figure(settled.finalLitres)} L read about ${figure(settled.mix.ec.mSPerCm)} mS/cm at 25 °C.`,
      ),
      ...elementBlocks(settled.mix.elements, 'What the likeliest can then holds'),
    );
  }
  if (settled.misses.length > 0 && remedy.status !== 'do not feed')
    blocks.push(heading('Not quite inside, in the likeliest can'), list(missLines(settled.misses)));
  const proof = 'best' in settled ? settled.best?.proof : 'proof' in settled ? settled.proof : null;
  if (proof) blocks.push(paragraph(`Proof: ${remedyProofSays(proof)}.`, 'quiet'));
  return blocks.length === 1 ? [] : blocks;
}

const AS_IT_IS = 'Feed it as it is.';
const ALL_THE_SAME =
  'You may feed it as it is. The plan stands close to its limits, though, so that hands alone carry many such cans over one of them. To stand further inside:';
const NEXT_TIME = atDoor({
  typed: 'Next time sheet --sure 90% plans the doses further inside.',
  page: 'Next time a feed nearer to its aims stands further inside: Closest, in Feed.',
});

/** In how many of the cans every limit holds, and in how many it would with nothing done. */
function sureText(remedy: SettledRemedy, improves: boolean): string {
  const { sure, asRight, asIs, optimum } = remedy;
  const mends = 'doing' in remedy;
  const share = (x: number): string => percent(roundShare(x));
  const near = asRight > sure + TELLING ? ` (as well as in a right batch in ${share(asRight)})` : '';
  const before = mends ? `; as it is, in ${share(asIs)}` : '';
  const beside = mends && optimum !== null ? `; the best that the program finds saves ${share(optimum)}` : '';
  const next = improves ? ` ${NEXT_TIME}` : '';
  return `Every limit ${mends ? 'then ' : ''}holds in ${share(sure)} of the cans that would show this${near}${before}${beside}.${next}`;
}

/** A difference worth a word. */
const TELLING = 0.03;

/** What each explanation asks for, then the way that is safe without knowing. */
function checkFirstBlocks({ alternatives, unknowing }: CheckFirst, result: MeterResult): Block[] {
  const blocks: Block[] = [paragraph('Find out first which it was: each asks for something else.', 'bad')];
  for (const { cause, asks } of alternatives) {
    const way = asks.status === 'feed' ? [AS_IT_IS] : asks.status === 'do not feed' ? ['Do not feed it.'] : null;
    blocks.push(
      paragraph(`If it was this: ${causeSays(cause, result)}. To find out: ${checkSays(cause, result)}`),
      list(way ?? ('doing' in asks ? stepLines(asks.doing) : [])),
    );
  }
  blocks.push(
    paragraph(
      'doing' in unknowing
        ? unknowing.notUnder.length === 0
          ? 'If you cannot find out, this is safe whichever it was:'
          : 'If you cannot find out, this is right in the most cans that read so:'
        : 'If you cannot find out, do not feed it.',
    ),
  );
  return blocks;
}

function unseenLines({ unseen }: MeterResult): string[] {
  const traces = 'Urea, iron, boron and the other traces: a batch without them reads the same.';
  if (unseen.length === 0) return [traces];
  return [
    `${unseen.join(', ')}: even the whole dose moves the pen by less than its error. Tick it off as you go.`,
    traces,
  ];
}

function penText({ pen }: MeterResult): string {
  const scale = pen.scale === null ? 'shows EC' : `shows ppm on the ${pen.scale} scale`;
  if (pen.temperatureC === null) return `${scale}; temperature not given, taken as corrected`;
  const corrects = pen.compensates === false ? 'does not correct for temperature' : 'corrects for temperature';
  return `${scale}; ${figure(pen.temperatureC)} °C; ${corrects}${pen.compensates === null ? ' (supposed)' : ''}`;
}
