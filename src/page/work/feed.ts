import { blendFeeds } from '../../desk/blend.js';
import { oneForBench } from '../../desk/one.js';
import type { Wishes } from '../../desk/wishes.js';
import type { Problem } from '../../problem.js';
import { blendSheets } from '../../report/blend-several.js';
import { oneSheet } from '../../report/one.js';
import type { Block, Sheet } from '../../report/sheet.js';
import { unfedSheet } from '../../report/unfed.js';
import type { BenchTexts, Tuned } from '../state.js';
import { benchQuestion } from './bench.js';
import { type BarView, barViews } from './bars.js';
import { filesOf } from './files.js';

/** A feed as the page shows it; every figure is finished text, made where the reports make theirs. */
export interface FeedView {
  title: string;
  met: boolean;
  /** One for each product, in the order they go in; empty where there is no feed. */
  doses: { name: string; words: string }[];
  batch: string;
  bars: BarView[];
  /** The whole report, block by block. */
  blocks: Block[];
  warnings: readonly Problem[];
}

/** The feed that is given, as the command line's `blend` has it; `one`: one mix for every feed of the bench. */
export async function feedQuestion(asked: { texts: BenchTexts; feed: string | null; tuned: Tuned }): Promise<FeedView> {
  const files = filesOf(asked.texts);
  const { feeds } = await benchQuestion(asked);
  const wishes = wishesOf({ ...asked, feed: asked.feed ?? feeds[0]?.name ?? null });
  if (wishes.one) {
    const { met, result, warnings } = await oneForBench(files, wishes);
    return { ...viewOf(oneSheet(result), met, warnings), doses: [], batch: '', bars: [] };
  }
  const { met, results, warnings, pen, unfed } = await blendFeeds(files, wishes);
  const [result] = results;
  if (result === undefined)
    return { ...viewOf(unfedSheet(unfed[0]!), false, warnings), doses: [], batch: '', bars: [] };
  const [sheet] = blendSheets([result], pen, false);
  const plan = 'given' in result ? result.given.plan : null;
  return {
    ...viewOf(sheet!, met, warnings),
    doses: (plan?.items ?? []).map(({ product, chosen }) => ({
      name: product.name || product.id,
      words: chosen.words,
    })),
    batch: '',
    bars: barViews(result.status === 'made' ? result.elements : (plan?.mix.elements ?? [])),
  };
}

const viewOf = ({ title, blocks }: Sheet, met: boolean, warnings: readonly Problem[]) => ({
  title,
  blocks,
  met,
  warnings,
});

/** The wishes that the switches and sliders stand for. */
export function wishesOf({ feed, tuned }: { feed: string | null; tuned: Tuned }): Wishes {
  const { way, strength, nh4, near } = tuned;
  return {
    ...(feed === null || way === 'one' ? {} : { feed }),
    ...(way === 'given' ? {} : { [way]: true }),
    ...(strength === undefined ? {} : { strength }),
    ...(nh4 === undefined ? {} : { nh4 }),
    ...(near === undefined || way === 'bare' || way === 'closest' ? {} : { near }),
  };
}
