import type { Caution } from '../can/cautions.js';
import type { BlendResult, FeedHeader } from '../feed/results.js';
import { figure } from './figures.js';
import { mixBlocks, type PenScale, waterText } from './mix.js';
import { priceBlocks } from './prices.js';
import { cautionSays } from './says/cautions.js';
import { type Block, facts, heading, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { whyNotBlocks } from './why-not.js';

/** The feed as a sheet: the mix and its proof, or why there is none and the nearest there is. */
export function blendSheet(result: BlendResult, pen: PenScale | null = null, allPrices = false): Sheet {
  const { feed, proof } = result;
  const cannot = result.status === 'infeasible';
  return {
    title: cannot ? `${feed.name}: no feed keeps every limit` : `${feed.name}: the ${result.goal} feed`,
    blocks: [
      headerFacts(feed, waterText(cannot && result.nearest ? result.nearest.waters : result.waters)),
      ...(result.status === 'uncertified'
        ? [paragraph('NOT PROVED: no engine’s answer passed its check. Treat the figures as a guess.', 'bad')]
        : []),
      ...(cannot ? whyNotBlocks(result, pen) : mixBlocks(result, feed, pen)),
      heading('Proof'),
      paragraph(spoken(proof.sentence), result.status === 'uncertified' ? 'bad' : 'good'),
      ...stageBlocks(result),
      ...priceBlocks(result.prices, feed.currency, allPrices),
      ...section('What the labels leave open', result.unknowns),
      ...section('Notes', result.notes),
      ...cautionBlocks(result.cautions),
    ],
  };
}

/** Plants, medium, phase, strength, batch and water: the head of every report on a feed. */
export function headerFacts(feed: FeedHeader, water: string): Block {
  return facts(
    ['Plants', `${feed.plants} in ${feed.medium}, ${feed.phase}`],
    ['Strength', feed.strength],
    ['Batch', feed.batchLitres === null ? null : `${figure(feed.batchLitres)} L`],
    ['Water', water],
  );
}

export function cautionBlocks(cautions: readonly Caution[]): Block[] {
  return cautions.length === 0 ? [] : [heading('Take care'), { kind: 'cautions', items: cautions.map(cautionSays) }];
}

function stageBlocks(result: BlendResult): Block[] {
  const stages = result.proof.stages ?? [];
  if (stages.length === 0) return [];
  return [
    table(
      ['each goal in turn', '>found', '>bound', 'engine'],
      stages.map((stage) => [stage.goal, figure(stage.found), figure(stage.bound), stage.engine]),
    ),
  ];
}
