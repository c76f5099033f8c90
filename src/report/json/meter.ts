import type * as z from 'zod';
import { type Cause, doingOf, type MeterResult, type PlannedBatch, type Remedy } from '../../meter/index.js';
import type { calibrateShape, meterShape, standardShape, weighedShape } from '../meter-shapes.js';
import type { CalibrateResult, StandardResult, WeighedResult } from '../meter-tools.js';
import { causeSays, checkSays } from '../says/cause.js';
import { lookAtSays, meterNoteSays } from '../says/meter.js';
import { shownSays, spreadSourceSays, suspectSays } from '../says/pen.js';
import { becauseSays, measureSays, remedyProofSays, stepLines } from '../says/remedy.js';
import { toldSays } from '../says/told.js';
import { todoLines, verdictSays } from '../says/verdict.js';
import { careJson, missesJson, mixJson } from './mix.js';
import { limitSays } from '../says/limits.js';

type Printed = z.infer<typeof meterShape>;

/** What `meter --json` prints of readings. */
export function meterJson(result: MeterResult): Printed {
  const { judgement, remedy, capacityLitres } = result;
  const beyond = judgement.verdict === 'beyond';
  return {
    schema: 'velamen.meter/1',
    status: result.status,
    verdict: result.verdict,
    sentence: verdictSays(result),
    todo: todoLines(result),
    feed: result.feed,
    recipe: result.recipe,
    pen: result.pen,
    plan: result.plan,
    litres: result.litres,
    judgement: {
      verdict: beyond ? 'unexplained' : judgement.verdict,
      readings: judgement.readings.map((line) => ({ ...line, shown: shownSays(line.shown) })),
      causes: judgement.causes.map((cause) => causeJson(cause, result)),
      asPlanned: judgement.asPlanned,
      told: judgement.told && {
        text: judgement.told.text,
        ways: judgement.told.ways.map(({ share, probability }, k) => ({
          words: toldSays(result.told[k]!, result),
          share,
          probability,
        })),
        agrees: judgement.told.agrees,
      },
      beyond: beyond ? judgement.lookAt.map((look) => lookAtSays(look, result)) : [],
    },
    actual: result.actual,
    remedy: remedy.status === 'none' ? null : { ...remedyJson(remedy, judgement.causes, result), capacityLitres },
    elsewhere: result.elsewhere.map(({ feed, ...use }) => ({ feed: feed.name, ...use })),
    unseen: result.unseen,
    notes: result.notes.map(meterNoteSays),
    ...careJson(result.cautions),
  };
}

function causeJson(cause: Cause, batch: PlannedBatch): Printed['judgement']['causes'][number] {
  const { fault, value, probability, explains, asWell } = cause;
  return {
    cause: cause.cause,
    kind: fault.kind,
    id: fault.kind === 'item' || fault.kind === 'label' ? batch.plan[fault.item]!.id : null,
    variant: fault.kind === 'item' ? fault.variant : null,
    value,
    probability,
    explains,
    asWell,
    words: causeSays(cause, batch),
    check: checkSays(cause, batch),
  };
}

function remedyJson(
  remedy: Remedy,
  causes: readonly Cause[],
  batch: PlannedBatch,
): Omit<NonNullable<Printed['remedy']>, 'capacityLitres'> {
  const settled = remedy.status === 'check first' ? remedy.unknowing : remedy;
  const doing = doingOf(settled);
  const proof =
    settled.status === 'feed' ? null : settled.status === 'do not feed' ? settled.best?.proof : settled.proof;
  return {
    status: remedy.status,
    keepShare: doing?.keepShare ?? 1,
    pourLitres: doing?.pourLitres ?? 0,
    pourToLitres: doing?.pourTo ?? null,
    jugs: doing?.jugs ?? 1,
    fillToLitres: doing?.fillTo ?? null,
    waterLitres: doing?.waterLitres ?? 0,
    waters: doing?.waters ?? [],
    add: (doing?.add ?? []).map((item) => {
      const { id, name, unit, amount } = item;
      return { id, name, unit, amount, words: measureSays(item) };
    }),
    finalLitres: settled.finalLitres,
    sure: settled.sure,
    asRight: settled.asRight,
    asIs: settled.asIs,
    optimum: settled.optimum,
    safeUnder: settled.safeUnder,
    notUnder: settled.notUnder,
    mix: mixJson(settled.mix),
    misses: missesJson(settled.misses),
    aside: settled.aside.map(limitSays),
    proof: proof ? { ...proof, sentence: remedyProofSays(proof) } : null,
    steps: 'doing' in settled ? stepLines(settled.doing) : [],
    says: settled.because.map((because) => becauseSays(because, causes, batch)),
    alternatives:
      remedy.status !== 'check first'
        ? []
        : remedy.alternatives.map(({ cause, asks }) => ({
            cause: cause.cause,
            words: causeSays(cause, batch),
            check: checkSays(cause, batch),
            probability: cause.probability,
            status: asks.status,
            steps: 'doing' in asks ? stepLines(asks.doing) : [],
          })),
  };
}

/** What `meter --calibrate --json` prints. */
export const calibrateJson = (result: CalibrateResult): z.infer<typeof calibrateShape> => ({
  schema: 'velamen.calibrate/1',
  ...result,
  from: result.from.map(({ source, sd }) => ({ source: spreadSourceSays(source, result.count), sd })),
});

/** What `meter --weigh --json` prints. */
export const weighedJson = (result: WeighedResult): z.infer<typeof weighedShape> => ({
  schema: 'velamen.weighed/1',
  ...result,
  from: result.from.map(({ source, sd }) => ({ source: spreadSourceSays(source, result.count), sd })),
});

/** What `meter --standard --json` prints. */
export function standardJson(result: StandardResult): z.infer<typeof standardShape> {
  const { status, standard, reads, scale, temperatureC, compensates } = result;
  const { shouldRead, factor, verdict, off, byTable } = result;
  const suspects = result.verdict === 'fine' ? [] : result.suspects.map(suspectSays);
  const trial = { standard, reads, scale, temperatureC, compensates };
  return { schema: 'velamen.standard/1', status, ...trial, shouldRead, factor, verdict, off, suspects, byTable };
}
