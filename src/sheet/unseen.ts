import { isOrganic } from '../can/organic.js';
import type { Mix } from '../feed/results.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { Slip } from './off.js';

/** What a conductivity pen cannot see in this very can. */
export type Unseen =
  /** Which salt it is. */
  | { kind: 'salt' }
  /** mg/L of urea nitrogen, and of all nitrogen. */
  | { kind: 'urea'; mgPerLitre: number; nitrogen: number }
  | { kind: 'organic matter' }
  /** Products by name whose slips stay within the tolerance of the reading. */
  | { kind: 'items'; products: string[] }
  | { kind: 'traces' };

export function unseenOf(plan: DosePlan, slips: readonly Slip[]): Unseen[] {
  const { mix } = plan;
  const mg = (element: Mix['elements'][number]['element']): number =>
    mix.elements.find((line) => line.element === element)?.mgPerLitre ?? 0;
  const hidden = plan.items.filter(({ product }) => !slips.some((slip) => slip.id === product.id && slip.shows));
  const organic = mg('other-N') > 0.05 || plan.items.some(({ product }) => isOrganic(product));
  const found: Unseen[] = [{ kind: 'salt' }];
  if (mg('urea-N') > 0.05) found.push({ kind: 'urea', mgPerLitre: mg('urea-N'), nitrogen: mg('N') });
  if (organic) found.push({ kind: 'organic matter' });
  if (hidden.length > 0)
    found.push({ kind: 'items', products: hidden.map(({ product }) => product.name || product.id) });
  if (TRACES.some((element) => mg(element) > 0)) found.push({ kind: 'traces' });
  return found;
}

const TRACES = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'] as const;
