import type { Caution } from '../can/cautions.js';
import type { Proof } from '../feed/proof.js';
import type { BlendResult, FeedHeader } from '../feed/results.js';
import { figure } from './figures.js';
import { mixBlocks, type PenScale, waterText } from './mix.js';
import { priceBlocks } from './prices.js';
import { cautionSays } from './says/cautions.js';
import { proofSentence, stageWords } from './says/proof.js';
import { type Block, facts, heading, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { whyNotBlocks } from './why-not.js';
import { blendNoteSays, silenceSays } from './says/blend.js';

/** The feed as a sheet: the mix and its proof, or why there is none and the nearest there is. */
export function blendSheet(result: BlendResult, pen: PenScale | null = null, allPrices = false): Sheet {
  const { feed, proof } = result;
  const made = result.status === 'made' ? result : null;
  return {
    title:
      result.status === 'cannot' ? `${feed.name}: no feed keeps every limit` : `${feed.name}: the ${result.goal} feed`,
    blocks: [
      headerFacts(feed, waterText((result.status === 'made' ? result.waters : result.nearest?.waters) ?? [])),
      ...doubtBlocks(result),
      ...(result.status === 'made' ? mixBlocks(result, feed, pen) : whyNotBlocks(result, pen)),
      heading('Proof'),
      paragraph(spoken(proofSentence(proof)), proof.verdict === 'uncertified' ? 'bad' : 'good'),
      ...stageBlocks(proof),
      ...priceBlocks(made?.prices, feed.currency, allPrices),
      ...section(
        'What the labels leave open',
        result.unknowns.map((silence) => silenceSays(silence, result)),
      ),
      ...section(
        'Notes',
        result.notes.map((note) => blendNoteSays(note, feed.currency)),
      ),
      ...cautionBlocks(result.cautions),
    ],
  };
}

function doubtBlocks({ status, proof }: BlendResult): Block[] {
  if (proof.verdict !== 'uncertified') return [];
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
    ['Strength', feed.strength],
    ['Batch', feed.batchLitres === null ? null : `${figure(feed.batchLitres)} L`],
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
