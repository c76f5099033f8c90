import * as z from 'zod';
import { amount, feedHeader, hazardLine, maybe, misses, mix } from './shapes.js';

const unit = z.enum(['g', 'mL', 'L']);
const range = { low: z.number(), high: z.number() };

const moment = z
  .union([z.literal('end'), z.int().min(0)])
  .describe('0: the water alone; k: after the k-th item; end: the full can');

export const meterShape = z.strictObject({
  schema: z.literal('velamen.meter/1'),
  status: z.literal('judged'),
  verdict: z.enum(['good', 'a little off', 'top up', 'mend', 'find out', 'do not feed']),
  sentence: z.string().describe('the verdict in words'),
  todo: z.array(z.string()).max(5).describe('what to do, in at most five lines'),
  feed: feedHeader.nullable(),
  recipe: z.string().nullable(),
  pen: z.strictObject({
    scale: maybe.describe('ppm per mS/cm; null for EC'),
    temperatureC: maybe,
    compensates: z.boolean().nullable(),
  }),
  plan: z.array(
    z.strictObject({ id: z.string(), name: z.string(), words: z.string(), amount, unit: z.enum(['g', 'mL']) }),
  ),
  litres: amount,
  judgement: z.strictObject({
    verdict: z.enum(['within', 'off', 'unexplained']),
    readings: z.array(
      z.strictObject({
        moment,
        shown: z.string(),
        mSPerCm: amount.describe('at 25 °C'),
        expected: z.strictObject({ mSPerCm: amount, ...range }).describe('low to high: nine of ten right batches'),
        within: z.boolean(),
      }),
    ),
    causes: z
      .array(
        z.strictObject({
          cause: z.string(),
          kind: z.enum([
            'item',
            'volume',
            'topping',
            'scale',
            'temperature',
            'pen',
            'water',
            'swap',
            'label',
            'said',
            'none',
          ]),
          id: z.string().nullable(),
          variant: z.enum(['forgotten', 'doubled', 'halved', 'wrong spoon']).nullable(),
          value: z
            .strictObject({ likely: z.number(), ...range })
            .describe(
              'factor on amount, on what a product conducts, on water or reading; mS/cm more for another water',
            ),
          probability: amount.describe('share, given the readings and the priors'),
          explains: z.boolean(),
          asWell: z.boolean().describe('too close to the likeliest to call'),
          words: z.string(),
          check: z.string(),
        }),
      )
      .describe('likeliest first; mistakes only'),
    asPlanned: amount.describe('share, given the readings, that nothing went wrong'),
    told: z
      .strictObject({
        text: z.string(),
        ways: z.array(
          z.strictObject({
            words: z.string(),
            share: amount.describe('before any reading'),
            probability: amount.describe('given the readings'),
          }),
        ),
        agrees: z.boolean().nullable().describe('whether the readings fit one of the ways; null without readings'),
      })
      .nullable()
      .describe('what --did said'),
    beyond: z
      .array(z.string())
      .describe('what to look at where the readings are beyond every mistake considered; then there is no remedy'),
  }),
  actual: z.array(
    z.strictObject({ id: z.string(), name: z.string(), unit, planned: amount, likely: amount, ...range }),
  ),
  remedy: z
    .strictObject({
      status: z.enum(['feed', 'improve', 'rescue', 'check first', 'do not feed']),
      keepShare: amount,
      pourLitres: amount,
      pourToLitres: maybe.describe('the mark that it is poured off to'),
      jugs: z.int().min(1).max(2).describe('2 where it would run over the brim: half goes into a second jug'),
      fillToLitres: maybe.describe('the mark that it is filled up to, in all jugs together'),
      waterLitres: amount,
      waters: z
        .array(z.strictObject({ id: z.string(), name: z.string(), litres: amount }))
        .describe('the same by water'),
      add: z.array(
        z.strictObject({ id: z.string(), name: z.string(), unit: z.enum(['g', 'mL']), amount, words: z.string() }),
      ),
      finalLitres: amount,
      capacityLitres: amount,
      steps: z.array(z.string()),
      says: z.array(z.string()),
      alternatives: z
        .array(
          z.strictObject({
            cause: z.string(),
            words: z.string(),
            check: z.string(),
            probability: amount,
            status: z.enum(['feed', 'improve', 'rescue', 'do not feed']),
            steps: z.array(z.string()),
          }),
        )
        .describe('for `check first`: what each explanation asks for'),
      sure: amount.describe('share of the cans that would show these readings which keep every limit after it'),
      asRight: amount.describe('the same, each limit kept as well as nine of ten right batches keep it'),
      asIs: amount.describe('share of the cans that keep every limit with nothing done'),
      optimum: maybe.describe('the same share after the best remedy that the linear program finds'),
      safeUnder: z.array(z.string()),
      notUnder: z.array(z.string()),
      mix: z.strictObject(mix).describe('the likeliest feed solution after the remedy'),
      misses,
      aside: z
        .array(z.string())
        .describe(
          'limits that the plan itself does not keep; they count as kept where they are no further off than it leaves them',
        ),
      proof: z
        .strictObject({
          engine: z.string(),
          found: z.number(),
          bound: z.number(),
          gap: z.number(),
          violation: z.number(),
          sentence: z.string(),
        })
        .nullable(),
    })
    .nullable(),
  elsewhere: z
    .array(
      z.strictObject({
        feed: z.string(),
        outdoors: z.boolean(),
        waterEach: amount.describe('litres of water to each litre of the can'),
        sure: amount.describe('share of the cans that keep the limits of that feed then'),
      }),
    )
    .describe('others that can have what these plants cannot'),
  unseen: z.array(z.string()).describe('items whose whole dose moves the pen by less than its error'),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
});

/** What a level spoonful weighs, however it was found. */
const spoonWeight = {
  gramsEach: amount,
  ...range,
  gramsTogether: amount,
  bulkDensity: amount.describe('g/mL, level'),
  bulkLow: amount,
  bulkHigh: amount,
  bulkOff: amount.describe('g/mL either way, nineteen of twenty such trials: what --save writes beside bulk_density'),
  from: z.array(z.strictObject({ source: z.string(), sd: amount })),
  saved: z.string().nullable(),
};

export const calibrateShape = z.strictObject({
  schema: z.literal('velamen.calibrate/1'),
  status: z.literal('weighed'),
  id: z.string(),
  name: z.string(),
  spoon: z.string(),
  count: z.int().min(1),
  before: amount,
  after: amount,
  litres: amount,
  ...spoonWeight,
});

export const weighedShape = z.strictObject({
  schema: z.literal('velamen.weighed/1'),
  status: z.literal('weighed'),
  id: z.string(),
  name: z.string(),
  spoon: z.string(),
  count: z.int().min(1),
  step: amount.describe('last digit of the scale, g'),
  ...spoonWeight,
});

export const standardShape = z.strictObject({
  schema: z.literal('velamen.standard/1'),
  status: z.literal('checked'),
  standard: amount.describe('mS/cm at 25 °C'),
  reads: amount,
  scale: maybe,
  temperatureC: maybe,
  compensates: z.boolean().nullable(),
  shouldRead: amount,
  factor: amount,
  off: z.number(),
  verdict: z.enum(['fine', 'calibrate', 'clean or replace']),
  suspects: z.array(z.string()),
  byTable: z.boolean().describe('the temperature table of potassium chloride was used'),
});
