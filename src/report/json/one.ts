import type * as z from 'zod';
import type { NotShared, OneResult, SharedCan, SharedPlan } from '../../blend/one/one-types.js';
import type { oneShape } from '../one-shapes.js';
import { assumedSays } from '../says/given.js';
import { missSays } from '../says/limits.js';
import { apartSays, nameOf } from '../says/one.js';
import { measuresJson, wayOutJson } from './given.js';
import { careJson, missesJson, mixAlone } from './mix.js';
import { proofJson } from './proof.js';

type OneJson = z.infer<typeof oneShape>;

/** What `blend --one --json` prints. */
export function oneJson(result: OneResult): OneJson {
  const { status, currency, mixes, apart, isFewest, without, cost, separate, assumed, cautions } = result;
  return {
    schema: 'velamen.one/1',
    status,
    currency,
    mixes: mixes.map(mixOf),
    apart: apart.map(apartOf),
    isFewest,
    without,
    cost,
    separate,
    assumed: mixes[0] ? assumedSays(assumed, mixes[0].plan.batchLitres) : [],
    ...careJson(cautions),
    costOfSharing: mixes.length === 0 ? null : cost.one - cost.separate,
  };
}

function mixOf({ plan, cans, all, stretch, costPerLitre, wayOut, proof }: SharedPlan): OneJson['mixes'][number] {
  const { items } = mixAlone(plan.mix);
  return {
    batchLitres: plan.batchLitres,
    items: items.map((item) => ({ ...item, measures: measuresJson({ plan }, item.id) })),
    costPerLitre,
    all,
    stretch,
    dilutions: cans.map((can) => dilutionOf(can, plan.batchLitres)),
    ...(wayOut ? { wayOut: wayOutJson(wayOut, Math.min(...cans.map(({ sure }) => sure)), cans.length > 1) } : {}),
    proof: proofJson(proof),
  };
}

function dilutionOf(can: SharedCan, mixed: number): OneJson['mixes'][number]['dilutions'][number] {
  const { request, parts } = can.sharing;
  const batchLitres = request.header.batchLitres ?? mixed;
  return {
    feed: nameOf(can),
    parts: { mix: parts.mix, water: parts.water },
    share: parts.share,
    off: parts.off,
    batchLitres,
    mixLitres: batchLitres * parts.share,
    sure: can.sure,
    ecMSPerCm: can.mix.ec.mSPerCm,
    elements: can.mix.elements,
    misses: missesJson(can.violations),
    custom: can.custom.map(missSays),
  };
}

export const apartOf = (one: NotShared): OneJson['apart'][number] => ({
  feeds: one.feeds,
  why: one.why.kind,
  says: apartSays(one),
  proof: proofJson(one.proof),
});
