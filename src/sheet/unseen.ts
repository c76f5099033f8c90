import type { Mix } from '../feed/results.js';
import { formatNumber } from '../units/format.js';
import type { Slip } from './off.js';
import type { DosePlan } from '../dose/plan-types.js';
import { isOrganic } from '../can/organic.js';

/** What a conductivity pen cannot see in this very can, sentence by sentence. */
export function unseenOf(plan: DosePlan, slips: readonly Slip[]): string[] {
  const { mix } = plan;
  const mg = (element: Mix['elements'][number]['element']): number =>
    mix.elements.find((line) => line.element === element)?.mgPerLitre ?? 0;
  const lines = ['Which salt it is: a pen counts all ions together.'];
  if (mg('urea-N') > 0.05)
    lines.push(
      `Urea, which carries no charge: ${formatNumber(mg('urea-N'), 2)} of the ${formatNumber(mg('N'), 3)} mg/L of nitrogen here.`,
    );
  if (mg('other-N') > 0.05 || plan.items.some(({ product }) => isOrganic(product)))
    lines.push('Organic matter (kelp, fish, humic matter) and its nitrogen.');
  const hidden = plan.items.filter(({ product }) => !slips.some((slip) => slip.id === product.id && slip.shows));
  if (hidden.length > 0) {
    const names = hidden.map(({ product }) => product.name || product.id).join(', ');
    lines.push(
      `${names}: forgotten or taken twice, the reading stays within its tolerance. Tick it off as it goes in.`,
    );
  }
  const trace = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'] as const;
  if (trace.some((element) => mg(element) > 0))
    lines.push('Iron, boron and the other traces: far too little of them to show.');
  return lines;
}
