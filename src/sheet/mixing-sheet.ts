import { withCan } from '../can/can-cautions.js';
import { cautionsFor } from '../can/cautions.js';
import { codesOfSolution } from '../can/hazards.js';
import type { FeedRequest } from '../feed/request.js';
import type { GivenResult } from '../blend/given-types.js';
import type { BlendResult } from '../feed/results.js';
import type { Measure } from '../dose/measure.js';
import type { Alternative, DosePlan } from '../dose/plan-types.js';
import { violationsOf } from '../dose/plan.js';
import type { Tool } from '../dose/tools.js';
import { isCodable, sheetCode } from './code.js';
import { keepingOf } from '../can/keeping.js';
import { slipsOf } from './off.js';
import type {
  DropNote,
  LeftOut,
  MixingSheet,
  NoSheet,
  SheetOfFeed,
  SheetMeasure,
  SheetOfDoses,
  SheetOptions,
  SheetStatus,
  SheetStep,
  StepOfPen,
} from './sheet-types.js';
import type { Learned } from '../chance/learned.js';
import { dosedOf, undeclaredIn } from '../chance/reading.js';
import { blendOf, partsOf, readingOf, type Step, type StepOptions, stepsOf } from './steps.js';
import { unseenOf } from './unseen.js';
import { refuseUnlike } from '../wrong-type.js';

export type * from './sheet-types.js';

type SheetRequest = Pick<FeedRequest, 'waters' | 'header' | 'temperatureC' | 'programme'>;
/** What is measured out: without status `made` it is the nearest there is. */
type SheetBlend = Pick<BlendResult, 'status' | 'notes' | 'proof'> & { given?: GivenResult['given'] };

/** The mixing sheet of planned doses; where they come to none, or where there is nothing to plan (null), why. */
export function mixingSheet(
  plan: DosePlan | null,
  request: SheetRequest,
  blend: SheetBlend,
  options: SheetOptions,
): SheetOfFeed {
  const asked = { waters: 'list', header: 'object', programme: 'object' } as const;
  refuseUnlike({ request, blend, options }, { request: asked, blend: 'object', options: 'object' });
  if (plan !== null) refuseUnlike({ plan }, { plan: { items: 'list', mix: 'object', amounts: 'object' } });
  if (plan === null) return noSheet(null, request, blend, options.date);
  const steps = stepsOf(plan, request, options.pen, asRead(options));
  const [first, ...others] = steps.map((step) => sheetStep(step, plan));
  return first
    ? { ...sheetOf(plan, request, blend, options, [first, ...others]), ...statusOf(plan, blend) }
    : noSheet(plan, request, blend, options.date);
}

/** The batch in letters; a mix for several feeds is coded as the strongest of them, unless that is diluted too. */
function codeOf(
  plan: DosePlan,
  { waters, header }: Pick<SheetRequest, 'waters' | 'header'>,
  { dilutions }: SheetOptions,
): string | null {
  const [strongest] = dilutions ?? [];
  if (strongest && strongest.parts.water > 0) return null;
  const { turns } = plan.sequence;
  const batch = {
    feed: strongest?.feed ?? header.name,
    strength: header.strengthFactor,
    litres: plan.batchLitres,
    items: turns.map(({ product: { id } }) => {
      const { tool, amount } = plan.items.find(({ product }) => product.id === id)!.chosen;
      // out of a bottle: the code holds how much, not how it was kept
      return { id, tool: tool === 'stock' ? ('syringe' as const) : tool, amount };
    }),
    beforeFull: turns.filter(({ full }) => full < 1).length,
    waters: waters.length > 1 ? blendOf(plan, { waters }).map(({ water: { id }, share }) => ({ id, share })) : [],
  };
  return isCodable(batch) ? sheetCode(batch) : null;
}

const asRead = ({ waterMSPerCm, learned }: SheetOptions): StepOptions => ({
  ...(waterMSPerCm === undefined ? {} : { waterMSPerCm }),
  ...(learned === undefined ? {} : { learned }),
});

/** What the doses come to: of a blend that is not made they are those of the nearest, whatever they keep themselves. */
function statusOf(plan: DosePlan, { status }: SheetBlend): SheetStatus {
  if (status !== 'made')
    return { status: status === 'cannot' ? 'infeasible' : 'uncertified', violations: violationsOf(plan) };
  return plan.status === 'kept'
    ? { status: 'kept', offers: plan.offers ?? [] }
    : { status: 'violated', violations: plan.violations, offers: plan.offers };
}

function sheetOf(
  plan: DosePlan,
  { waters, header, temperatureC, programme }: SheetRequest,
  blend: SheetBlend,
  options: SheetOptions,
  steps: MixingSheet['steps'],
): SheetOfDoses {
  const { pen, waterMSPerCm } = options;
  const request = { waters, ...(temperatureC === undefined ? {} : { temperatureC }) };
  const measured = asRead(options);
  const parts = partsOf(plan);
  const { sequence, mix } = plan;
  // by the pen the can is full from the start: its end is the last step
  const end = plan.byPen ? steps.at(-1)!.reading : readingOf(parts, plan, request, pen, measured);
  const predicted =
    plan.byPen || !options.learned
      ? end
      : readingOf(parts, plan, request, pen, asRead({ ...options, learned: undefined }));
  const isLearned = predicted.low !== end.low || predicted.high !== end.high;
  const slips = slipsOf(plan, request, pen, end, {
    waterMSPerCm,
    gain: end.mSPerCm / predicted.mSPerCm,
    brimLitres: options.brimLitres,
  });
  const products = plan.items.map((item) => item.product);
  return {
    feed: { ...header, batchLitres: plan.batchLitres },
    date: options.date,
    code: codeOf(plan, { waters, header }, options),
    litres: plan.batchLitres,
    firstLitres: steps[0].litres,
    water: {
      parts: blendOf(plan, request).map(({ water, share }) => ({ name: water.name, share })),
      reading: readingOf([], plan, request, pen, measured),
      measured: waterMSPerCm !== undefined,
    },
    pen: pen.reads === 'EC' ? 'EC' : pen.scale,
    nitrogen: {
      mgPerLitre: mix.elements.find((line) => line.element === 'N')?.mgPerLitre ?? 0,
      aim: programme.bands.N?.aim ?? null,
      ammoniumShare: mix.nitrogenShares?.ammonium ?? null,
    },
    steps,
    order: { verdict: sequence.verdict, avoiding: sequence.avoiding, cloudy: sequence.cloudy },
    end: {
      reading: end,
      atTemperature:
        temperatureC === undefined
          ? null
          : { celsius: temperatureC, ...readingOf(parts, plan, request, pen, { ...measured, temperatureC }) },
      ph: { value: mix.ph.value, low: mix.ph.low, high: mix.ph.high, asMixed: mix.ph.asMixed },
    },
    learned: isLearned ? { ...daysOf(options.learned!), predicted } : null,
    slips,
    unseen: unseenOf(plan, slips),
    keeps: keepingOf(parts, blendOf(plan, request)),
    elements: mix.elements,
    leftOut: leftOutOf(plan),
    sureness: options.sureness ?? null,
    sure: options.sure ?? null,
    ...(options.dilutions ? { dilutions: options.dilutions } : {}),
    given: blend.given && 'near' in blend.given ? blend.given : null,
    notes: { doses: plan.notes, drops: dropNote(plan), blend: blend.notes, undeclared: undeclaredOf(plan, request) },
    cautions: withCan(cautionsFor(products, header), mix),
    hazards: codesOfSolution(parts),
    proof: { blend: blend.proof, doses: plan.proof },
  };
}

const daysOf = ({ batches, from, to }: Learned) => ({ batches, from, to });

function noSheet(plan: DosePlan | null, { header }: SheetRequest, blend: SheetBlend, date: string | null): NoSheet {
  return {
    status: 'cannot',
    feed: plan ? { ...header, batchLitres: plan.batchLitres } : header,
    date,
    why: plan ? whyNone(plan, blend) : { kind: blend.status === 'cannot' ? 'no nearest' : 'not proved' },
    notes: { doses: plan?.notes ?? [], drops: null, blend: blend.notes, undeclared: [] },
    proof: blend.proof,
  };
}

function whyNone(plan: DosePlan, { status }: SheetBlend): NoSheet['why'] {
  const { leftOut } = plan;
  if (leftOut.length > 0)
    return {
      kind: 'too little to measure',
      leftOut: leftOutOf(plan),
      offers: plan.offers ?? [],
    };
  return { kind: status === 'made' ? 'water alone' : status === 'cannot' ? 'no feed' : 'not proved' };
}

const leftOutOf = ({ leftOut }: DosePlan): LeftOut[] =>
  leftOut.map(({ product, wanted }) => ({ id: product.id, name: product.name, wanted, unit: unitOf(product) }));

function sheetStep(
  { product, measure, alternatives, wanted, full, reading }: Step,
  { tools, batchLitres, byPen }: Pick<DosePlan, 'tools' | 'batchLitres' | 'byPen'>,
): SheetStep {
  const unit = unitOf(product);
  const { amount } = measure;
  const perAmount = product.form === 'liquid' ? product.density : 1;
  const inKit = (m: Pick<Measure, 'tool' | 'amount'>): boolean => tools.some((own) => measures(own, m, perAmount));
  const others = alternatives.filter(inKit);
  return {
    id: product.id,
    name: product.name || product.id,
    grams: unit === 'g' ? amount : product.density === undefined ? null : amount * product.density,
    millilitres: unit === 'mL' ? amount : null,
    measures: [sheetMeasure({ ...measure, keeps: true }, unit), ...others.map((other) => sheetMeasure(other, unit))],
    wanted,
    bottle: measure.bottle ?? null,
    borrowed: measure.tool !== 'pen' && measure.tool !== 'stock' && !inKit(measure),
    byPen: stepOfPen(product.id, byPen),
    litres: full * batchLitres,
    reading,
  };
}

function stepOfPen(id: string, byPen: DosePlan['byPen']): StepOfPen | null {
  const step = byPen?.steps.find(({ product }) => product.id === id);
  if (!byPen || !step) return null;
  if (step.by === 'measure') return { by: 'measure', why: step.why };
  const { shown: until, tolerance } = step.until;
  const unit = byPen.pen.scale === null ? 'mS/cm' : 'ppm';
  return { by: 'pen', start: step.start?.words ?? null, until, tolerance, unit };
}

const sheetMeasure = ({ tool, words, amount, actions, keeps }: Alternative, unit: 'g' | 'mL'): SheetMeasure => ({
  tool,
  words,
  amount,
  unit,
  actions,
  keeps,
});

/** A drop hangs on the liquid as well as on the dropper. */
function dropNote({ items, tools }: DosePlan): DropNote | null {
  const products = items
    .filter((item) => item.chosen.tool === 'dropper')
    .map(({ product }) => product.name || product.id);
  const dropper = tools.find((tool) => tool.kind === 'dropper');
  if (products.length === 0 || !dropper) return null;
  return { products, perMillilitre: Math.round(100 / dropper.step) / 100 };
}

const undeclaredOf = (plan: DosePlan, request: Pick<FeedRequest, 'waters'>): string[] =>
  undeclaredIn(dosedOf(plan), blendOf(plan, request)).map(({ name, id }) => name || id);

/** Whether a tool of the kit delivers it: a scale in its own steps, a syringe at its own marks. */
function measures(own: Tool, { tool, amount }: Pick<Measure, 'tool' | 'amount'>, grams: number | undefined): boolean {
  if (own.kind !== tool) return false;
  if (tool !== 'scale' && tool !== 'syringe') return true;
  const steps = (tool === 'scale' ? amount * (grams ?? 1) : amount) / own.step;
  return Math.abs(steps - Math.round(steps)) < 1e-6 * Math.max(1, steps);
}

const unitOf = (product: { form: 'powder' | 'liquid' }): 'g' | 'mL' => (product.form === 'powder' ? 'g' : 'mL');
