import type { GivenResult } from '../../blend/given-types.js';
import { ionsOfMix } from '../../can/ec.js';
import { measuredOrOpen } from '../../can/in-the-can.js';
import type { Pen } from '../../catalog/bench-types.js';
import { blendFeeds } from '../../desk/blend.js';
import { oneForBench } from '../../desk/one.js';
import { openBench } from '../../desk/open-bench.js';
import type { Wishes } from '../../desk/wishes.js';
import type { BlendResult, Mix } from '../../feed/results.js';
import type { Problem } from '../../problem.js';
import { cautionBlocks } from '../../report/blend.js';
import { blendSheets } from '../../report/blend-several.js';
import { besideRows } from '../../report/given.js';
import { ecBlocks, nitrogenForms, type PenScale } from '../../report/mix.js';
import { oneSheet } from '../../report/one.js';
import { pageOf } from '../../report/sheet-page/index.js';
import type { Block, Sheet } from '../../report/sheet.js';
import { unfedSheet } from '../../report/unfed.js';
import { volumeText } from '../../report/volume.js';
import { mixingSheet } from '../../sheet/mixing-sheet.js';
import type { BenchTexts, Tuned } from '../state.js';
import { type BarView, barViews } from './bars.js';
import { benchQuestion } from './bench.js';
import { filesOf } from './files.js';
import { type EcSum, ecSumOf } from './ec-ions.js';
import type { Pause, Say } from './say.js';
import { doseSum, formViews, type FormView, type Mixed, moneySum, type MoneySum, type SumLine } from './sums.js';

/** A feed as the page shows it; every figure is finished text, made where the reports make theirs. */
export interface FeedView {
  title: string;
  /** False where what was asked cannot be had; the report then says why. */
  met: boolean;
  /** What it is for, `4 L`, and what goes in, in that order; empty where there is nothing to measure. */
  batch: string;
  doses: { name: string; words: string; sum: SumLine[] }[];
  bars: BarView[];
  nitrogen: FormView[];
  /** What a pen shows, and how that grows as one thing after the other goes in. */
  ec: Block[];
  ecParts: SumLine[];
  /** The conductivity ion by ion; null where there is no mix. */
  ecSum: EcSum | null;
  /** bare | this | closest; null where it was not worked out. */
  beside: ReturnType<typeof besideRows>;
  /** What stands behind the money of this feed; null where nothing is beside it. */
  money: MoneySum | null;
  cautions: Block[];
  /** How strong it is: share of full strength, as the programme counts it. */
  strength: number | null;
  /** Where there is no such feed, or one mix for many: what comes nearest, what it lacks, what helps; as the report begins. */
  brief: Block[];
  /** The whole report, block by block. */
  blocks: Block[];
  warnings: readonly Problem[];
}

interface FeedAsked {
  texts: BenchTexts;
  feed: string | null;
  tuned: Tuned;
}

/** The feed that is given, as the command line's `blend` has it; `one`: one mix for every feed of the bench. */
export async function feedQuestion(asked: FeedAsked, _say?: Say, pause?: Pause): Promise<FeedView> {
  const files = filesOf(asked.texts);
  const wishes = await wishesFor(asked);
  if (wishes.one) {
    const { met, result, warnings } = await oneForBench(files, wishes);
    const sheet = oneSheet(result);
    return {
      ...NOTHING,
      ...told(sheet),
      brief: briefOf(sheet.blocks),
      cautions: cautionBlocks(result.cautions),
      met,
      warnings,
    };
  }
  const { met, results, warnings, pen, unfed } = await blendFeeds(files, wishes, undefined, pause);
  const [result] = results;
  if (result === undefined) {
    const sheet = unfedSheet(unfed[0]!);
    return { ...NOTHING, ...told(sheet), brief: sheet.blocks, met: false, warnings };
  }
  const view = await viewOf(result, pen, asked.texts, wishes);
  return { ...view, brief: met && view.doses.length > 0 ? [] : briefOf(view.blocks), met, warnings };
}

async function viewOf(
  result: GivenResult | BlendResult,
  pen: PenScale | null,
  texts: BenchTexts,
  wishes: Wishes,
): Promise<FeedView> {
  const given = planOf(result);
  const mix: Mix | null = result.status === 'made' ? result : (given?.mix ?? result.nearest);
  const mixed = given ?? (mix === null ? null : await bareMixed(mix, texts, wishes));
  return {
    ...NOTHING,
    ...told(blendSheets([result], pen, false)[0]!),
    ...(given ? { batch: volumeText(given.litres), doses: given.doses, ecParts: ecParts(result, pen) } : {}),
    ...(mix
      ? {
          bars: barViews(mix.elements, mixed),
          nitrogen: mix.nitrogenShares ? formViews(nitrogenForms(mix.nitrogenShares), mixed) : [],
          ec: ecBlocks(mix, pen),
          ecSum: mixed && ecSumOfMix(mixed),
        }
      : {}),
    ...besideOf(result),
    cautions: cautionBlocks(result.cautions),
    strength: result.feed.strengthFactor,
  };
}

function besideOf(result: GivenResult | BlendResult): Pick<FeedView, 'beside' | 'money'> {
  const beside = result.status === 'made' && 'given' in result ? besideRows(result.given, result.feed) : null;
  const plan = 'given' in result ? result.given.plan : null;
  if (beside === null || plan === null) return { beside: null, money: null };
  const { items, mix, batchLitres: litres } = plan;
  const { currency } = result.feed;
  return { beside, money: moneySum(items, mix, { litres, yearLitres: beside.yearLitres, currency }) };
}

/** The wishes, for the first feed of the bench where none is named. */
async function wishesFor({ texts, feed, tuned }: FeedAsked): Promise<Wishes> {
  const { feeds } = await benchQuestion({ texts });
  return wishesOf({ feed: feed ?? feeds[0]?.name ?? null, tuned });
}

const NOTHING: FeedView = {
  title: '',
  met: false,
  batch: '',
  doses: [],
  bars: [],
  nitrogen: [],
  ec: [],
  ecParts: [],
  ecSum: null,
  beside: null,
  money: null,
  cautions: [],
  strength: null,
  brief: [],
  blocks: [],
  warnings: [],
};

const told = ({ title, blocks }: Sheet): Pick<FeedView, 'title' | 'blocks'> => ({ title, blocks });

/** The beginning of a report: up to its elements, which are drawn, and its cautions. */
function briefOf(blocks: readonly Block[]): Block[] {
  const first = blocks.filter(({ full }) => !full);
  const end = first.findIndex(({ kind }) => kind === 'bars' || kind === 'cautions');
  // the heading above goes with it
  return first.slice(0, end < 0 ? undefined : end - 1).filter(({ kind }) => kind !== 'facts');
}

/** What is measured out, where anything is. */
function planOf(result: GivenResult | BlendResult): (Mixed & { mix: Mix; doses: FeedView['doses'] }) | null {
  const plan = 'given' in result ? result.given.plan : null;
  if (plan === null) return null;
  const { request, amounts, batchLitres: litres, mix } = plan;
  return {
    shelf: request.shelf,
    waters: request.waters,
    amounts,
    litres,
    mix,
    doses: plan.items.map((item) => ({
      name: item.product.name || item.product.id,
      words: item.chosen.words,
      sum: doseSum(item, litres, result.feed.currency),
    })),
  };
}

const ecSumOfMix = ({ amounts, shelf, waters }: Mixed): EcSum =>
  ecSumOf(ionsOfMix(amounts, shelf, waters, 'value', measuredOrOpen));

/** The bare mix, or the nearest there is, is not measured out: it is reckoned for one litre. */
async function bareMixed(mix: Mix, texts: BenchTexts, wishes: Wishes): Promise<Mixed> {
  const { shelf, waters } = await openBench(filesOf(texts), wishes);
  const perLitre = (id: string): number => {
    const item = mix.items.find((one) => one.id === id);
    return item?.gramsPerLitre ?? item?.millilitresPerLitre ?? 0;
  };
  return {
    shelf: shelf.products,
    waters,
    litres: 1,
    amounts: {
      products: shelf.products.map(({ id }) => perLitre(id)),
      waters: waters.map(({ id }) => mix.waters.find((one) => one.id === id)?.share ?? 0),
    },
  };
}

/** What the pen shows after the water and after each product, as the mixing sheet has it. */
function ecParts(result: GivenResult | BlendResult, scale: PenScale | null): SumLine[] {
  const plan = 'given' in result ? result.given.plan : null;
  if (plan === null) return [];
  const pen: Pen = scale === null || scale === 'EC' ? { reads: 'EC' } : { reads: 'ppm', scale };
  const sheet = mixingSheet(plan, plan.request, result, { pen, date: null });
  if (sheet.status === 'cannot') return [];
  const page = pageOf(sheet);
  return page.lines.flatMap(({ what, reading }) =>
    reading === null ? [] : [{ of: what, how: `${reading.range}, ${page.pen}`, comes: `${reading.ec} mS/cm` }],
  );
}

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
