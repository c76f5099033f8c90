import type { Pen } from '../catalog/bench-types.js';
import { type Caution, cautionsFor } from '../can/cautions.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendResult, FeedHeader } from '../feed/results.js';
import { type Keeping, keepingOf } from './keeping.js';
import { type Slip, slipsOf } from './off.js';
import type { Measure } from '../dose/measure.js';
import type { DosePlan, Violation } from '../dose/plan-types.js';
import { type Sequence, WHILE_MIXING } from '../can/sequence.js';
import { blendOf, partsOf, type Reading, readingOf, type Step, stepsOf } from './steps.js';
import type { Sureness } from '../chance/sure.js';
import type { Tool } from '../dose/tools.js';
import { unseenOf } from './unseen.js';

/** What there is to say besides the plan. */
export interface SheetOptions {
  pen: Pen;
  /** As the grower wants it printed; null leaves a line to fill in. */
  date: string | null;
  /** What the meter reads in the water alone, mS/cm at 25 °C. */
  waterMSPerCm?: number;
  /** How sure the doses are, in figures and sentence by sentence. */
  sure?: Sureness;
  sureness?: string[];
}

/** One product on the sheet; the chosen measure first, then the others. */
export interface SheetStep {
  id: string;
  name: string;
  /** g for the batch; null for a liquid of unknown density. */
  grams: number | null;
  /** mL for the batch; null for a powder. */
  millilitres: number | null;
  measures: { tool: string; words: string; amount: number; unit: 'g' | 'mL'; actions: number; keeps: boolean }[];
  /** g or mL that the proved blend wants. */
  wanted: number;
  effect: string;
  /** True where nothing in the kit measures it: the amount is one for a borrowed scale or syringe. */
  borrowed: boolean;
  /** Litres in the can while it goes in. */
  litres: number;
  reading: Reading;
}

/** Everything a mixing sheet says; text, page, label, CSV and JSON are drawn from it and cannot disagree. */
export interface MixingSheet {
  schema: 'velamen.sheet/1';
  /**
   * `kept`: every limit holds as measured; `missed`: the kit cannot measure it so, the nearest doses are given; `infeasible`: no feed keeps
   * every limit, the nearest one is given; `uncertified`: the blend is not proved.
   */
  status: 'kept' | 'missed' | 'infeasible' | 'uncertified';
  feed: FeedHeader;
  date: string | null;
  litres: number;
  /** Litres to begin with; `litres` is the mark at the end. */
  firstLitres: number;
  water: { names: string; parts: { name: string; share: number }[]; reading: Reading; measured: boolean };
  /** ppm per mS/cm of the grower's pen, or EC. */
  pen: 'EC' | number;
  nitrogen: { mgPerLitre: number; aim: number | null; ammoniumShare: number | null };
  steps: SheetStep[];
  /** How the order keeps the can clear, or cannot. */
  order: Pick<Sequence, 'verdict' | 'avoiding' | 'cloudy'>;
  end: {
    reading: Reading;
    atTemperature: (Reading & { celsius: number }) | null;
    ph: { value: number; low: number; high: number };
  };
  slips: Slip[];
  unseen: string[];
  keeps: Keeping;
  elements: DosePlan['mix']['elements'];
  misses: Violation[];
  offers: string[];
  leftOut: { id: string; name: string; wanted: number; unit: 'g' | 'mL' }[];
  /** Share of batches that keep every limit, with 90 % intervals; null where it was not worked out. */
  sure: Sureness | null;
  sureness: string[];
  notes: string[];
  cautions: Caution[];
  proof: string;
}

/** What the sheet tells of the blend that is measured out; without status `made` that is the nearest there is. */
export interface BlendOfSheet {
  status: BlendResult['status'];
  notes: readonly string[];
  /** Its proof, in a line. */
  proof: string;
}

/** The mixing sheet of planned doses. */
export function mixingSheet(
  plan: DosePlan,
  { waters, header, temperatureC, programme }: Pick<FeedRequest, 'waters' | 'header' | 'temperatureC' | 'programme'>,
  blend: BlendOfSheet,
  options: SheetOptions,
): MixingSheet {
  const { pen, waterMSPerCm } = options;
  const request = { waters, ...(temperatureC === undefined ? {} : { temperatureC }) };
  const measured = waterMSPerCm === undefined ? {} : { waterMSPerCm };
  const parts = partsOf(plan);
  const used = blendOf(plan, request);
  const { sequence } = plan;
  const steps = stepsOf(plan, request, pen, measured);
  const end = readingOf(parts, plan, request, pen, measured);
  const slips = slipsOf(plan, request, pen, end, waterMSPerCm);
  const products = plan.items.map((item) => item.product);
  const n = plan.mix.elements.find((line) => line.element === 'N');
  return {
    schema: 'velamen.sheet/1',
    status: blend.status === 'made' ? plan.status : UNMADE[blend.status],
    feed: { ...header, batchLitres: plan.batchLitres },
    date: options.date,
    litres: plan.batchLitres,
    firstLitres: plan.batchLitres * (steps[0]?.full ?? WHILE_MIXING),
    water: {
      names: namesOf(used),
      parts: used.map(({ water, share }) => ({ name: water.name, share })),
      reading: readingOf([], plan, request, pen, measured),
      measured: waterMSPerCm !== undefined,
    },
    pen: pen.reads === 'EC' ? 'EC' : pen.scale,
    nitrogen: {
      mgPerLitre: n?.mgPerLitre ?? 0,
      aim: programme.bands.N?.aim ?? null,
      ammoniumShare: plan.mix.nitrogenShares?.ammonium ?? null,
    },
    steps: steps.map((step) => sheetStep(step, plan)),
    order: { verdict: sequence.verdict, avoiding: sequence.avoiding, cloudy: sequence.cloudy },
    end: {
      reading: end,
      atTemperature:
        temperatureC === undefined
          ? null
          : { celsius: temperatureC, ...readingOf(parts, plan, request, pen, { ...measured, temperatureC }) },
      ph: { value: plan.mix.ph.value, low: plan.mix.ph.low, high: plan.mix.ph.high },
    },
    slips,
    unseen: unseenOf(plan, slips),
    keeps: keepingOf(products, plan.mix, sequence.verdict),
    elements: plan.mix.elements,
    misses: plan.misses,
    offers: plan.offers,
    leftOut: plan.leftOut.map(({ product, wanted }) => ({
      id: product.id,
      name: product.name,
      wanted,
      unit: unitOf(product),
    })),
    sure: options.sure ?? null,
    // of a can that misses its limits by design there is nothing to be sure of
    sureness: blend.status === 'cannot' ? [] : (options.sureness ?? []),
    notes: [...plan.notes, ...dropNotes(plan), ...blend.notes],
    cautions: cautionsFor(products, header.plants),
    proof: `${blend.proof}; ${plan.proof.sentence}`,
  };
}

const UNMADE = { cannot: 'infeasible', open: 'uncertified' } as const;

function sheetStep(
  { product, measure, alternatives, wanted, full, reading, effect }: Step,
  { tools, batchLitres }: Pick<DosePlan, 'tools' | 'batchLitres'>,
): SheetStep {
  const unit = unitOf(product);
  const { amount } = measure;
  const perAmount = product.form === 'liquid' ? product.density : 1;
  const inKit = (m: Pick<Measure, 'tool' | 'amount'>): boolean => tools.some((own) => measures(own, m, perAmount));
  // grams or millilitres are given beside a spoonful anyway, and to the digit
  const others = alternatives.filter(inKit);
  return {
    id: product.id,
    name: product.name || product.id,
    grams: unit === 'g' ? amount : product.density === undefined ? null : amount * product.density,
    millilitres: unit === 'mL' ? amount : null,
    measures: [{ ...measure, keeps: true }, ...others].map(({ tool, words, amount: a, actions, keeps }) => ({
      tool,
      words,
      amount: a,
      unit,
      actions,
      keeps,
    })),
    wanted,
    effect,
    borrowed: !inKit(measure),
    litres: full * batchLitres,
    reading,
  };
}

/** A drop hangs on the liquid as well as on the dropper. */
function dropNotes({ items, tools }: DosePlan): string[] {
  const dropped = items
    .filter((item) => item.chosen.tool === 'dropper')
    .map(({ product }) => product.name || product.id);
  const dropper = tools.find((tool) => tool.kind === 'dropper');
  if (dropped.length === 0 || !dropper) return [];
  const perMillilitre = Math.round(100 / dropper.step) / 100;
  return [
    `${dropped.join(', ')}: ${perMillilitre} drops are taken as 1 mL, as the kit says. Count the drops of this liquid that fill 1 mL, and write that under dropper.`,
  ];
}

/** Whether a tool of the kit delivers it: a scale in its own steps, a syringe at its own marks. */
function measures(own: Tool, { tool, amount }: Pick<Measure, 'tool' | 'amount'>, grams: number | undefined): boolean {
  if (own.kind !== tool) return false;
  if (tool !== 'scale' && tool !== 'syringe') return true;
  const steps = (tool === 'scale' ? amount * (grams ?? 1) : amount) / own.step;
  return Math.abs(steps - Math.round(steps)) < 1e-6 * Math.max(1, steps);
}

const unitOf = (product: { form: 'powder' | 'liquid' }): 'g' | 'mL' => (product.form === 'powder' ? 'g' : 'mL');

/** `Rain water`, or `Rain water 60 %, tap water 40 %`; less than half a percent is not worth a name. */
function namesOf(waters: ReturnType<typeof blendOf>): string {
  const told = waters.filter(({ share }) => share >= 0.005);
  if (told.length === 1) return told[0]!.water.name;
  return told.map(({ water, share }) => `${water.name} ${Math.round(100 * share)} %`).join(', ');
}
