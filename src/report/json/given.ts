import type * as z from 'zod';
import type { Beside, Given } from '../../blend/given-types.js';
import type { ElementLine } from '../../feed/results.js';
import { assumedSays } from '../says/given.js';
import { limitSays, missSays } from '../says/limits.js';
import { surenessLines } from '../says/sureness.js';
import type { Keeping } from '../../can/keeping.js';
import { doubtsSay } from '../says/doubts.js';
import { doseOfferSays, weighCommand } from '../says/doses.js';
import { causeSays, keepingSays } from '../says/keeping.js';
import { wayOutSays } from '../says/way-out.js';
import type { beside, given, near, wayOut } from '../blend-shapes.js';

type GivenJson = { [Part in keyof typeof given]: z.infer<(typeof given)[Part]> };

/** How near, how sure and what stands beside it, as published. */
export function givenJson(told: Given, elements: readonly ElementLine[]): GivenJson {
  const { sure, custom, assumed, litresPerYear, plan, idealCostPerLitre } = told;
  const { currency } = plan.request.header;
  return {
    near: nearJson(told.near),
    keeps: keepsJson(told.keeps),
    wayOut: told.wayOut && wayOutJson(told.wayOut, sure.share),
    sure: { share: sure.share, wanted: sure.wanted, says: surenessLines(sure.sureness, elements, sure) },
    beside: besideJson(told),
    costPerYear: litresPerYear === null ? null : plan.mix.costPerLitre * litresPerYear,
    custom: custom.map(missSays),
    assumed: assumedSays(assumed, plan.batchLitres),
    doubts: told.doubts ? doubtsSay(told.doubts, { currency }, plan.batchLitres) : [],
    idealCostPerLitre,
  };
}

/** How long a can keeps, and why. */
export const keepsJson = (told: Keeping): z.infer<(typeof given)['keeps']> => ({
  hours: told.hours,
  says: keepingSays(told),
  causes: told.causes.map((cause) => {
    const { why, hours, source, evidence } = cause;
    return { why, hours, says: causeSays(cause), source, evidence };
  }),
});

export const wayOutJson = (
  told: NonNullable<Given['wayOut']>,
  share: number,
  forSeveral = false,
): NonNullable<z.infer<typeof wayOut>> => ({
  kind: told.way.kind,
  says: wayOutSays(told, share, forSeveral),
  bottles: told.way.kind === 'item stock' ? told.way.bottles : [],
  without: {
    unmeasured: told.without.unmeasured,
    misses: told.without.misses.map(missSays),
    share: told.without.share,
  },
  weigh: told.without.weigh.map(({ product, spoon }) => weighCommand(product, spoon)),
  others: told.others.map(doseOfferSays),
});

const nearJson = ({ asked, main, trace, farthest, stoppedBy }: Given['near']): z.infer<typeof near> => ({
  width: asked.factor,
  main,
  trace,
  nitrogenWithin: asked.nitrogenWithin,
  own: { ...asked.own },
  without: [...asked.without],
  apart: [...(asked.apart ?? [])],
  farthest,
  stoppedBy: stoppedBy.map(limitSays),
});

function besideJson({ beside: { bare, own, closest }, litresPerYear }: Given): z.infer<typeof beside> {
  const column = (one: Beside | null) =>
    one && { ...one, costPerYear: litresPerYear === null ? null : one.costPerLitre * litresPerYear };
  return { bare: column(bare), own: column(own), closest: column(closest) };
}

/** The chosen measure of an item, by its id. */
export const measuresJson = ({ plan }: Pick<Given, 'plan'>, id: string) =>
  plan.items
    .filter(({ product }) => product.id === id)
    .flatMap(({ chosen, alternatives }) => [chosen, ...alternatives.filter(({ keeps }) => keeps)])
    .map(({ tool, words, amount, actions }) => ({ tool, words, amount, actions }));
