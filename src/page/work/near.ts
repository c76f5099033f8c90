import type { NearFeed } from '../../blend/near-feed.js';
import { type NearMixes, nearMixes } from '../../desk/near-mixes.js';
import { ecBlocks, nitrogenForms } from '../../report/mix.js';
import { nearSays } from '../../report/says/given.js';
import type { BenchTexts, Tuned } from '../state.js';
import { barViews } from './bars.js';
import type { FeedView } from './feed.js';
import { filesOf } from './files.js';
import { formViews } from './sums.js';

/** What a can would hold before it is measured out: the part of a feed that follows a slider at once. It has no doses. */
export interface NearView extends Pick<FeedView, 'met' | 'bars' | 'nitrogen' | 'ec' | 'strength'> {
  /** What these figures are, in a sentence. */
  said: string;
}

interface NearAsked {
  texts: Pick<BenchTexts, 'bench.yaml' | 'shelf.csv'>;
  feed: string | null;
  tuned: Tuned;
}

/** The nearest mix at this place of the sliders; null for plants that are not fed. */
export async function nearQuestion({
  texts,
  feed,
  tuned: { way, strength, nh4, near },
}: NearAsked): Promise<NearView | null> {
  const mixes = await readOnce(texts, feed);
  const answer = await mixes.at({
    ...(strength === undefined ? {} : { strength }),
    ...(nh4 === undefined ? {} : { nh4 }),
    ...(way === 'closest' ? { closest: true } : near === undefined ? {} : { near }),
  });
  if (answer === null) return null;
  const { contents } = answer;
  const { shelf, waters } = mixes;
  const mixed = answer.status === 'near' ? { shelf, waters, amounts: answer.amounts, litres: 1 } : null;
  return {
    met: answer.status === 'near',
    said: saidOf(answer),
    bars: contents ? barViews(contents.elements, mixed) : [],
    nitrogen: contents?.nitrogenShares ? formViews(nitrogenForms(contents.nitrogenShares), mixed) : [],
    ec: contents ? ecBlocks(contents, mixes.pen) : [],
    strength: answer.feed.strengthFactor,
  };
}

function saidOf(answer: NearFeed): string {
  if (answer.status === 'near')
    return `${answer.feed.name}: ${nearSays(answer.near)}, before rounding to what your kit measures`;
  const why =
    answer.status === 'none' ? 'no mix of this shelf keeps every limit' : 'no mix was found that keeps every limit';
  return `${answer.feed.name}: ${why}${answer.contents ? '; this one misses least' : ''}`;
}

/** The bench that was asked about last: while a slider moves it is the same. */
let last: { bench: string; shelf: string; feed: string | null; mixes: Promise<NearMixes> } | undefined;

function readOnce(texts: NearAsked['texts'], feed: string | null): Promise<NearMixes> {
  const [bench = '', shelf = ''] = [texts['bench.yaml'], texts['shelf.csv']];
  if (last?.bench !== bench || last.shelf !== shelf || last.feed !== feed)
    last = { bench, shelf, feed, mixes: nearMixes(filesOf(texts as BenchTexts), feed ?? undefined) };
  return last.mixes;
}
