import { assessWords } from '../../desk/assess.js';
import { blendFeeds } from '../../desk/blend.js';
import { substitutesFor } from '../../desk/buy.js';
import { checkPenWithStandard } from '../../desk/check-pen.js';
import { concentrateFeed } from '../../desk/concentrate.js';
import { densityOnShelf } from '../../desk/density-on-shelf.js';
import { frontierOf } from '../../desk/frontier.js';
import { programmesOf } from '../../desk/programmes.js';
import { reachOf } from '../../desk/reach.js';
import { shippedCatalog } from '../../desk/shipped-catalog.js';
import type { Wishes } from '../../desk/wishes.js';
import { weighSpoonsOnScale } from '../../desk/weigh-on-scale.js';
import { weighSpoonByPen } from '../../desk/weigh-spoon.js';
import type { SpoonWeight } from '../../meter/index.js';
import type { Problem } from '../../problem.js';
import { adviceSheet } from '../../report/advice.js';
import { blendSheets } from '../../report/blend-several.js';
import { unfedSheet } from '../../report/unfed.js';
import { assessSheet } from '../../report/assess.js';
import { concentrateSheet } from '../../report/concentrate.js';
import { frontierSheet } from '../../report/frontier.js';
import { calibrateSheet, standardSheet, weighedSheet } from '../../report/meter-tools.js';
import { priceBlocks } from '../../report/prices.js';
import { programmesSheet } from '../../report/programmes.js';
import { reachAgainstSheet, reachSheet } from '../../report/reach.js';
import { purchaseStepSays } from '../../report/says/purchase.js';
import type { Block, Sheet } from '../../report/sheet.js';
import { substitutesSheet } from '../../report/substitutes.js';
import type { TextFile } from '../../desk/bench-files.js';
import type { BenchTexts } from '../state.js';
import { benchQuestion } from './bench.js';
import { filesOf } from './files.js';
import type { Say } from './say.js';

/** What a tool found: its report, and the shelf with it written in where it is something of a jar. */
export interface ToolView {
  title: string;
  blocks: Block[];
  met: boolean;
  shelf: string | null;
  warnings: readonly Problem[];
}

/** @param beside another table: a shelf to set beside this one, or what is for sale */
type Run = (texts: BenchTexts, wishes: Wishes, say: Say, beside: TextFile | undefined) => Promise<ToolView>;

const told = (sheet: Sheet, { met, warnings }: { met: boolean; warnings: readonly Problem[] }): ToolView => ({
  title: sheet.title,
  blocks: sheet.blocks,
  met,
  shelf: null,
  warnings,
});

/** A weighing, and the shelf that holds it; a shelf that cannot take it is told by the desk's refusal. */
function weighed<R extends SpoonWeight>(
  texts: BenchTexts,
  { result, ...answer }: { result: R; met: boolean; warnings: readonly Problem[] },
  sheetOf: (result: R) => Sheet,
): ToolView {
  const { shelf } = filesOf(texts);
  const view = told(sheetOf(result), answer);
  if (!shelf) return view;
  const text = densityOnShelf(shelf, result.id, result);
  // whether it is kept is told by a button here
  return {
    ...view,
    blocks: view.blocks.slice(0, -1),
    shelf: texts['shelf.csv']?.startsWith('\uFEFF') ? `\uFEFF${text}` : text,
  };
}

const TOOLS = {
  weigh: async (texts, wishes) =>
    weighed(texts, await weighSpoonsOnScale(filesOf(texts), { ...wishes, save: true }), weighedSheet),
  calibrate: async (texts, wishes) =>
    weighed(texts, await weighSpoonByPen(filesOf(texts), { ...wishes, save: true }), calibrateSheet),
  standard: async (texts, wishes) => {
    const { pen } = await benchQuestion({ texts });
    const scale = pen === null || pen === 'EC' ? {} : { scale: `${pen}` };
    const answer = checkPenWithStandard({ ...scale, ...wishes });
    return told(standardSheet(answer.result), answer);
  },
  assess: async (texts, wishes) => {
    const found = await assessWords(filesOf(texts), wishes);
    return told(
      found.about === 'recipe' ? assessSheet(found.result, found.pen) : adviceSheet(found.result, '', found.pen),
      found,
    );
  },
  reach: async (texts, wishes) => {
    const answer = await reachOf(filesOf(texts), wishes);
    return told(reachSheet(answer.results[0]!, answer.water), answer);
  },
  against: async (texts, wishes, _, against) => {
    const answer = await reachOf({ ...filesOf(texts), ...(against ? { against } : {}) }, wishes);
    return told(reachAgainstSheet(answer.results[0]!, answer.against!), answer);
  },
  prices: async (texts, wishes) => {
    const { results, pen, unfed, ...answer } = await blendFeeds(filesOf(texts), { ...wishes, prices: true });
    const [sheet] = [...unfed.map(unfedSheet), ...blendSheets(results, pen, true)];
    const [made] = results.flatMap((result) => (result.status === 'made' ? [result] : []));
    const insisted = made ? priceBlocks(made.prices, made.feed.currency, true) : [];
    // the feed itself stands above; where there is none, it is told why
    return told(insisted.length > 0 ? { ...sheet!, blocks: insisted } : sheet!, answer);
  },
  frontier: async (texts, wishes) => {
    const answer = await frontierOf(filesOf(texts), wishes);
    return told(frontierSheet(answer.results[0]!), answer);
  },
  concentrate: async (texts, wishes) => {
    const answer = await concentrateFeed(filesOf(texts), wishes);
    return told(concentrateSheet(answer.results[0]!), answer);
  },
  substitutes: async (texts, wishes, say, market) => {
    const search = {
      now: () => performance.now(),
      onStep: (step: Parameters<typeof purchaseStepSays>[0]) => say(`seeking ${purchaseStepSays(step)}`),
    };
    const answer = await substitutesFor(
      { ...filesOf(texts), ...(market ? { market } : {}) },
      wishes,
      shippedCatalog(),
      search,
    );
    return told(substitutesSheet(answer.result), answer);
  },
  programmes: async (_, wishes) => {
    const answer = programmesOf({}, wishes);
    return told(programmesSheet(answer.result), answer);
  },
} satisfies Record<string, Run>;

export type ToolName = keyof typeof TOOLS;

/** What a tool of the command line finds, asked from its place in the page. */
export const toolQuestion = (
  { texts, tool, wishes, beside }: { texts: BenchTexts; tool: ToolName; wishes: Wishes; beside?: TextFile },
  say: Say,
): Promise<ToolView> => (TOOLS[tool] as Run)(texts, wishes, say, beside);
