import { describe, expect, it } from 'vitest';
import { solve } from '../../solver/index.js';
import { type CanLimit, canLimits, keepsAll } from '../../src/meter/can-limits.js';
import { chooseRemedy } from '../../src/meter/choose-remedy.js';
import type { Batch } from '../../src/meter/batch.js';
import { expectedReadings } from '../../src/meter/expected.js';
import { carriedOut, doseSpread, drawHands } from '../../src/meter/hands.js';
import { type Judged, judge } from '../../src/meter/judge.js';
import { seeded } from '../../src/meter/matrix.js';
import { after, linearisationFor, nothing } from '../../src/meter/remedy-action.js';
import { rescueProgram } from '../../src/meter/rescue-program.js';
import { type Bench, benches, SCALE_KIT } from './benches.js';
import { type Mishap, mishap, rightBatch } from './mistakes.js';

const PEN = { scale: null, temperatureC: 25, compensates: true } as const;
const CAPACITY = 5;
const BENCHES = 24;
const EACH = 9;

/**
 * What is asked for: of 100 mistakes and more (200 with every seed), read after every step with a pen good to 2 %, the cause is among the first two named in 80 %, and
 * after the remedy the true can keeps every limit it could have kept (by the same program with the can known and hands that never err)
 * in 90 %.
 *
 * The doses are those that `sheet` gives unasked; no bench is chosen or left out, and the
 * remedy is carried out with the errors of kit and hands too. Trace elements do not move a pen, and nothing can mend what it cannot see; they
 * count all the same, and the mistakes that it can see (the whole dose of the item moves a reading by twice the pen's error) once more by
 * themselves. What is lost is lost mostly on benches whose feed
 * these hands can hardly make at all (a third or less of the right batches after any remedy).
 */
describe('mistakes at the sink', () => {
  const random = seeded(7);
  const made = benches(BENCHES, random.uniform, { given: true });

  it('the cause is named, the remedy keeps what could be kept', async () => {
    const hands = seeded(1007);
    const tally = { all: 0, named: 0, could: 0, kept: 0, seen: 0, keptOfSeen: 0 };
    for (const bench of await made) {
      const { batch, request } = bench;
      for (let i = 0; i < EACH; i += 1) {
        const truth = mishap(batch, random);
        const judged = judge(batch, truth.readings, PEN);
        const saved = await keptAfter(bench, truth, judged, hands.uniform());
        tally.all += 1;
        if (judged.judgement.causes.slice(0, 2).some((c) => c.cause === truth.cause)) tally.named += 1;
        const limits = limitsOf(batch, request);
        const known = { request, batch, limits, cans: [truth], sure: 0.5, capacityLitres: CAPACITY };
        if (!saved && (await solve(rescueProgram(known))).verdict !== 'optimal') continue;
        tally.could += 1;
        if (saved) tally.kept += 1;
        if (!seen(batch, truth)) continue;
        tally.seen += 1;
        if (saved) tally.keptOfSeen += 1;
      }
    }
    if (process.env.TELL) console.log(tally);
    expect(tally.all).toBe(BENCHES * EACH);
    expect(tally.named / tally.all).toBeGreaterThanOrEqual(0.8);
    expect(tally.kept / tally.could).toBeGreaterThanOrEqual(0.9);
    expect(tally.keptOfSeen / tally.seen).toBeGreaterThanOrEqual(0.9);
    // hardly any can is beyond saving, or the figure above would say little
    expect(tally.could / tally.all).toBeGreaterThanOrEqual(0.9);
  });

  it('a right batch of the doses that come unasked reads as one, and what it is told does it no harm', async () => {
    const right = seeded(11);
    const hands = seeded(1011);
    const tally = { all: 0, within: 0, asIs: 0, kept: 0 };
    for (const bench of (await made).slice(0, 20)) {
      const { batch, request } = bench;
      for (let i = 0; i < 3; i += 1) {
        const truth = rightBatch(batch, right);
        const judged = judge(batch, truth.readings, PEN);
        tally.all += 1;
        if (judged.judgement.verdict === 'within') tally.within += 1;
        if (keepsAll(limitsOf(batch, request), truth, nothing(request))) tally.asIs += 1;
        if (await keptAfter(bench, truth, judged, hands.uniform())) tally.kept += 1;
      }
    }
    if (process.env.TELL) console.log(tally);
    // one in twenty is a surprise by the very definition of one
    expect(tally.within / tally.all).toBeGreaterThanOrEqual(0.9);
    expect(tally.kept / tally.all).toBeGreaterThanOrEqual(0.9);
    expect(tally.kept).toBeGreaterThanOrEqual(tally.asIs);
  });
});

/** The limits of a can, EC linearised at the can as planned. */
function limitsOf(batch: Bench['batch'], request: Bench['request']): CanLimit[] {
  const planned = { amounts: batch.items.map((item) => item.planned), litres: batch.litres, cause: 'none' } as const;
  const at = linearisationFor(after(planned, nothing(request), batch, request), request);
  return canLimits(request, at, batch);
}

/** Whether the true can keeps every limit after the remedy, carried out by hands that err. */
async function keptAfter({ batch, request }: Bench, truth: Mishap, judged: Judged, seed: number): Promise<boolean> {
  const { action } = await chooseRemedy(judged, request, { capacityLitres: CAPACITY, kit: SCALE_KIT });
  const [hand] = drawHands(1, request, Math.floor(1e9 * seed));
  const done = carriedOut(action, doseSpread(request, SCALE_KIT)(action.add), hand!, truth.litres);
  return keepsAll(limitsOf(batch, request), truth, done);
}

/** Twice the pen's error of 2 %. */
const SEEN = 0.04;

function seen(batch: Batch, { cause }: Mishap): boolean {
  if (cause === 'volume') return true;
  const item = Number(cause.split(':')[1]);
  const { planned, slopes } = expectedReadings(batch, [item + 1]);
  return slopes[0]![item]! >= SEEN * planned[0]!;
}
