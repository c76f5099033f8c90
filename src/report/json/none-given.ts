import type * as z from 'zod';
import type { NoneGiven } from '../../blend/given-types.js';
import type { DosePlan } from '../../dose/plan-types.js';
import type { noneGiven } from '../blend-shapes.js';
import { commandLine, type Typed } from '../command-line.js';
import { missName } from '../says/limits.js';
import { changeSays, optionsOf } from '../says/none-given.js';

type NoneGivenJson = { [Part in keyof typeof noneGiven]: z.infer<(typeof noneGiven)[Part]> };

/** What comes nearest as doses, what it lacks and what would help, as published. */
export function noneGivenJson({ plan, misses, changes }: NoneGiven, feed: string, typed: Typed | null): NoneGivenJson {
  return {
    doses: plan && dosesJson(plan),
    lacks: misses.map(({ limit, value, bound, grade }) => ({ limit: missName(limit), value, bound, grade })),
    changes: changes.map((change) => ({
      kind: change.wanted.kind,
      says: changeSays(change),
      command: commandLine(typed, feed, optionsOf(change.wanted)),
      doses: dosesJson(change.plan),
      share: change.share,
      width: change.width,
    })),
  };
}

const dosesJson = ({ items, batchLitres }: DosePlan) => ({
  litres: batchLitres,
  items: items.map(({ product, chosen: { tool, words, amount, actions } }) => ({
    id: product.id,
    name: product.name,
    unit: product.form === 'powder' ? ('g' as const) : ('mL' as const),
    ...{ tool, words, amount, actions },
  })),
});
