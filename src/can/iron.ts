import { saltNamed } from '../chemistry/salts.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { CAN_LIMITS } from './compiled-limits.js';
import type { Blend, Part } from './part.js';

/** Iron of a can, and how much of it stays in solution at the pH as mixed; mg/L. */
export interface IronLine {
  mgPerLitre: number;
  /** What holds, of what labels guarantee. */
  held: number;
  pH: number;
  sources: IronSource[];
}

export interface IronSource {
  id: string;
  name: string;
  /** The agent that holds it, the weakest where its label names several; `none` for salts and waters, null where no label says. */
  chelate: string | null;
  /** The pH to which that holds. */
  to: number;
  source: string;
  mgPerLitre: number;
  holds: boolean;
}

/**
 * The iron of a can, source by source; null where there is none. A label that names no chelate is counted as iron without one:
 * that it holds longer nobody guarantees.
 */
export function ironIn(parts: readonly Part[], waters: readonly Blend[], pH: number): IronLine | null {
  const sources = [
    ...parts.map(({ product, perLitre }) => {
      const { id, name, ironGuaranteed } = product;
      return { id, name, chelate: chelateOf(product), mgPerLitre: perLitre * ironGuaranteed };
    }),
    ...waters.map(({ water, share }) => {
      return { id: water.id, name: water.name, chelate: 'none', mgPerLitre: share * (water.mgPerLitre.Fe ?? 0) };
    }),
  ].flatMap((source): IronSource[] => {
    if (!(source.mgPerLitre > 0)) return [];
    const { least, most, source: from } = rangeOf(source.chelate ?? 'none');
    return [{ ...source, to: most, source: from, holds: pH <= most && pH >= (least ?? 0) }];
  });
  if (sources.length === 0) return null;
  const sum = (of: readonly IronSource[]): number => of.reduce((total, { mgPerLitre }) => total + mgPerLitre, 0);
  return { mgPerLitre: sum(sources), held: sum(sources.filter(({ holds }) => holds)), pH, sources };
}

/** Whether the chelate of a product holds its iron at a pH. */
export function holdsIronAt(product: ClosedProduct, pH: number): boolean {
  const { least, most } = rangeOf(chelateOf(product) ?? 'none');
  return pH <= most && pH >= (least ?? 0);
}

/** The agent that holds a product's iron: by its formula, by the salts that its label names, or by its name. */
export function chelateOf({ formula, derivedFrom, name }: ClosedProduct): string | null {
  const named = [...(formula === undefined ? [] : [formula]), ...derivedFrom].flatMap((text) => {
    const salt = saltNamed(text);
    return salt?.holds.has('Fe') ? [agentIn(salt.name) ?? 'none'] : [];
  });
  const agents = named.length > 0 ? named : [agentIn(name) ?? []].flat();
  const weakest = agents.sort((a, b) => rangeOf(a).most - rangeOf(b).most)[0];
  return weakest ?? null;
}

/** The agent that some words name, the longest first: HEDTA is no EDTA. */
const agentIn = (words: string): string | null =>
  AGENTS.find((agent) => new RegExp(`\\b${agent}\\b`, 'i').test(words)) ?? null;

const CHELATES = CAN_LIMITS.filter(({ quantity }) => quantity === 'chelate');
const AGENTS = CHELATES.map(({ of }) => of).filter((of) => of !== 'none');

/** Iron that nothing we know holds is counted as the salt. */
const rangeOf = (agent: string): (typeof CHELATES)[number] =>
  CHELATES.find(({ of }) => of === agent) ?? CHELATES.find(({ of }) => of === 'none')!;
