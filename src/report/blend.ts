import type { Caution } from '../can/cautions.js';
import type { Proof } from '../feed/proof.js';
import type { Given, GivenMade, GivenNone, GivenResult } from '../blend/given-types.js';
import type { BlendResult, FeedHeader } from '../feed/results.js';
import { figure } from './figures.js';
import { givenBlocks, givenTitle } from './given.js';
import {
  ecBlocks,
  elementBlocks,
  missLines,
  mixBlocks,
  nitrogenBlocks,
  type PenScale,
  ruleBlocks,
  waterText,
} from './mix.js';
import { priceBlocks } from './prices.js';
import { cautionSays } from './says/cautions.js';
import { proofSentence, stageWords } from './says/proof.js';
import { doseProofSays } from './says/dose-proof.js';
import { doubtsSay } from './says/doubts.js';
import { doseOfferSays, weighSays } from './says/doses.js';
import { weighBlocks } from './sheet-page/no-sheet.js';
import { askedSays } from './says/given.js';
import { surenessLines } from './says/sureness.js';
import { keepingInFull, keepingSays } from './says/keeping.js';
import { wayOutSays } from './says/way-out.js';
import { solutionBlocks } from './solution.js';
import { type Block, facts, heading, inFull, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { volumeText } from './volume.js';
import type { Typed } from './command-line.js';
import { lackSays } from './says/none-given.js';
import { noneGivenBlocks, whyNotBlocks } from './why-not.js';
import { strengthSays } from './says/strength.js';
import { blendNoteSays, silenceSays } from './says/blend.js';

/** The feed as a sheet: what to measure, and why it can be trusted; or why there is none and the nearest there is. */
export function blendSheet(
  result: GivenResult | BlendResult,
  pen: PenScale | null = null,
  allPrices = false,
  typed: Typed | null = null,
): Sheet {
  if (result.status === 'made' && 'given' in result) return givenSheet(result, pen, allPrices);
  if (result.status !== 'made' && 'given' in result) return noneGivenSheet(result, pen, typed);
  const { feed, proof } = result;
  const made = result.status === 'made' ? result : null;
  return {
    title: titleOf(result),
    blocks: [
      headerFacts(feed, waterText((result.status === 'made' ? result.waters : result.nearest?.waters) ?? [])),
      ...doubtBlocks(result),
      ...(result.status === 'made' ? mixBlocks(result, feed, pen) : whyNotBlocks(result, pen)),
      heading('Proof'),
      paragraph(spoken(proofSentence(proof)), proof.verdict === 'uncertified' ? 'bad' : 'good'),
      ...stageBlocks(proof),
      ...priceBlocks(made?.prices, feed.currency, allPrices),
      ...silenceBlocks(result),
      ...closingBlocks(result),
    ],
  };
}

const silenceBlocks = (result: Pick<BlendResult, 'unknowns' | 'goal' | 'feed'>): Block[] =>
  section(
    'What the labels leave open',
    result.unknowns.map((silence) => silenceSays(silence, result)),
  );

/** Notes and cautions, at the end of every report on a blend. */
const closingBlocks = ({ notes, feed, cautions }: Pick<BlendResult, 'notes' | 'feed' | 'cautions'>): Block[] => [
  ...section(
    'Notes',
    notes.map((note) => blendNoteSays(note, feed.currency)),
  ),
  ...cautionBlocks(cautions),
];

function titleOf({ status, goal, feed, proof }: BlendResult): string {
  switch (status) {
    case 'made':
      return `${feed.name}: the bare ${goal} mix`;
    case 'cannot':
      return `${feed.name}: no feed keeps every limit`;
    case 'open':
      return proof.unfinished
        ? `Not finished: no feed found yet for ${feed.name}, and none ruled out`
        : `${feed.name}: no feed was found, and none is ruled out`;
  }
}

/** No feed: first what comes nearest and what would help, with `--full` why. */
function noneGivenSheet(result: GivenNone, pen: PenScale | null, typed: Typed | null): Sheet {
  const { feed, given, proof } = result;
  const waters = given.plan?.mix.waters ?? result.nearest?.waters ?? [];
  const title = titleOf(result);
  return {
    title: result.status === 'cannot' ? `${title}; ${lackSays(given)}` : title,
    blocks: [
      headerFacts(feed, waterText(waters)),
      ...doubtBlocks(result),
      ...noneGivenBlocks(result, pen, typed),
      ...inFull([
        heading('Proof'),
        paragraph(spoken(proofSentence(proof)), proof.verdict === 'uncertified' ? 'bad' : 'good'),
        ...silenceBlocks(result),
      ]),
      ...closingBlocks(result),
    ],
  };
}

/** The feed to give: first what to do, with `--full` everything else. */
function givenSheet(result: GivenMade, pen: PenScale | null, allPrices: boolean): Sheet {
  const { feed, given, proof, elements, rules } = result;
  const { plan, near, sure } = given;
  return {
    title: givenTitle(result),
    blocks: [
      ...(given.doubts ? doubtsSay(given.doubts, feed, plan.batchLitres).map((line) => paragraph(line, 'bad')) : []),
      headerFacts(feed, waterText(result.waters)),
      ...(proof.unfinished ? doubtBlocks(result) : []),
      ...unmeasuredBlocks(plan),
      ...(given.wayOut ? [paragraph(wayOutSays(given.wayOut, sure.share))] : []),
      ...weighBlocks(weighSays(plan.notes, given.wayOut?.without.weigh)),
      ...givenBlocks(result),
      ...elementBlocks(elements),
      ...nitrogenBlocks(result),
      ...ecBlocks(result, pen),
      paragraph(keepingSays(given.keeps)),
      ...inFull([
        ...section('How long it keeps, and why', keepingInFull(given.keeps)),
        ...section('Other ways out', given.wayOut?.others.map(doseOfferSays) ?? []),
        heading('How near and how sure'),
        list([askedSays(near), ...surenessLines(sure.sureness, elements, sure)]),
        ...ruleBlocks(rules),
        ...solutionBlocks(result),
        heading('Proof'),
        paragraph(spoken(proofSentence(proof)), proof.verdict === 'uncertified' ? 'bad' : 'good'),
        paragraph(spoken(doseProofSays(plan.proof))),
      ]),
      ...(allPrices ? priceBlocks(result.prices, feed.currency, allPrices) : []),
      ...closingBlocks(result),
    ],
  };
}

/** What the kit cannot measure as the limits ask, and what would make it possible. */
function unmeasuredBlocks(plan: Given['plan']): Block[] {
  if (plan.status === 'kept')
    return (plan.offers ?? []).length === 0
      ? []
      : [paragraph('Your kit cannot measure every item of it.', 'bad'), list(plan.offers!.map(doseOfferSays))];
  return [
    paragraph('NOT EVERY LIMIT IS KEPT: your tools cannot measure this can closely enough.', 'bad'),
    list([...missLines(plan.violations), ...plan.offers.map(doseOfferSays)]),
  ];
}

function doubtBlocks({ status, proof }: Pick<BlendResult, 'status' | 'proof'>): Block[] {
  if (proof.verdict !== 'uncertified') return [];
  if (proof.unfinished) {
    const told =
      status === 'made'
        ? 'this feed keeps every limit; whether a better one does'
        : 'whether any feed keeps every limit';
    return [paragraph(`NOT FINISHED: ${told}, the search did not settle.`, 'bad')];
  }
  return [
    status === 'made'
      ? paragraph('NOT PROVED to be the best: this feed keeps every limit, but a better one is not excluded.', 'bad')
      : paragraph(
          'NOT PROVED: no feed was found, and it is not proved that there is none. Treat the figures as a guess.',
          'bad',
        ),
  ];
}

/** Plants, medium, phase, strength, batch and water: the head of every report on a feed. */
export function headerFacts(feed: FeedHeader, water: string): Block {
  return facts(
    ['Plants', `${feed.plants} in ${feed.medium}, ${feed.phase}`],
    ['Strength', strengthSays(feed)],
    ['Batch', feed.batchLitres === null ? null : volumeText(feed.batchLitres)],
    ['Water', water],
  );
}

export function cautionBlocks(cautions: readonly Caution[]): Block[] {
  return cautions.length === 0 ? [] : [heading('Take care'), { kind: 'cautions', items: cautions.map(cautionSays) }];
}

function stageBlocks({ stages }: Proof): Block[] {
  if (stages.length === 0) return [];
  return [
    table(
      ['each goal in turn', '>found', '>bound', 'engine'],
      stages.map((stage) => [stageWords(stage.goal), figure(stage.found), figure(stage.bound), stage.engine]),
    ),
  ];
}
