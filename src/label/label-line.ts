import { NITROGEN_FORMS, NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import type { Problem } from '../problem.js';
import type { Composition } from './composition.js';
import type { LeftOpen, LikelyRange } from './left-open.js';

/** One product of the `labels` report: what 1 g/L or 1 mL/L of it brings. */
export interface LabelLine {
  id: string;
  name: string;
  per: 'g/L' | 'mL/L';
  /**
   * Every nutrient that is stated or left open, in label order. `mgPerLitre` is null where the label is silent. A minimum counts on
   * `low`, a cap on `high`; `closed` tells what closing the label makes likely, which is no guarantee.
   */
  elements: {
    element: Nutrient;
    mgPerLitre: number | null;
    low: number;
    high: number;
    closed?: LikelyRange;
  }[];
  /** Stated forms as shares of total N, 0…1; null without nitrogen. */
  nitrogenShares: { nitrate: number; ammonium: number; urea: number; other: number; undeclared: number } | null;
  open: LeftOpen[];
  problems: Problem[];
}

/** Reads a composition out for the `labels` report. */
export function labelLine(
  product: { id: string; name: string; composition: Composition },
  problems: readonly Problem[] = [],
): LabelLine {
  const { per, content, open, closed } = product.composition;
  const shown = NUTRIENTS.filter((n) => (content[n].stated ?? 0) > 0 || content[n].high > 0 || closed?.has(n));
  const elements = shown.map((element) => {
    const { low, stated, high } = content[element];
    const likely = closed?.get(element);
    return { element, mgPerLitre: stated, low, high, ...(likely === undefined ? {} : { closed: { ...likely } }) };
  });
  return {
    id: product.id,
    name: product.name,
    per: per === 'g' ? 'g/L' : 'mL/L',
    elements,
    nitrogenShares: sharesOf(content),
    open: [...open],
    problems: [...problems],
  };
}

function sharesOf(content: Composition['content']): LabelLine['nitrogenShares'] {
  const total = content.N.stated ?? 0;
  if (!(total > 0)) return null;
  const [nitrate, ammonium, urea, other] = NITROGEN_FORMS.map((form) => (content[form].stated ?? 0) / total) as [
    number,
    number,
    number,
    number,
  ];
  const rest = 1 - nitrate - ammonium - urea - other;
  return { nitrate, ammonium, urea, other, undeclared: rest > 1e-9 ? rest : 0 };
}
