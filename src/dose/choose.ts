import type { Product } from '../catalog/product.js';
import type { DoseLimits } from './limits.js';
import { type Measure, measuresWithin } from './measure.js';
import { byProgram } from './by-program.js';
import type { DoseProof } from './plan-types.js';
import { type Choices, DUST, type Found, searchDoses, type UpperRow } from './search.js';
import { paperTools, type Tool } from './tools.js';

/** An item of the blend with the measures open to it; the first is to leave it out. */
export interface OpenItem {
  product: Product;
  wanted: number;
  measures: Measure[];
  /** True where nothing in the kit measures it, and amounts are only written down. */
  unmeasured: boolean;
}

export interface Chosen {
  /** One for each item; an amount of 0 leaves it out. */
  measures: Measure[];
  /** The largest miss, relative to its limit; 0 where all hold. */
  slack: number;
  by: DoseProof['by'];
  deviation: number;
}

export interface ChooseSettings {
  tools: readonly Tool[];
  known: readonly Product[];
  /** Standard deviations that must fit. */
  margin: number;
}

/** One action weighs a millionth of a relative deviation: it decides between equals only. */
const ACTION = 1e-6;
/** Times the blend's dose, where no limit bounds an item. */
const UNBOUNDED = 10;
/** The plane of the EC cap is trusted to a tenth of the cap for passing over a choice; the model decides on whole ones. */
const PLANE_TRUST = 0.1;
/** Nodes for each look at how little must be missed. */
const LOOK = 80_000;
/** So many conductivities are worked out before the plane is taken as the cap. */
const MOST_ECS = 400;

/** Every measure from nothing to the most that any mix within the limits could take, or twice the blend's dose if that is more. */
export function openItems(
  products: readonly Product[],
  wanted: readonly number[],
  limits: DoseLimits,
  { tools, known }: ChooseSettings,
): OpenItem[] {
  const most = reachOf(limits);
  return products.map((product, i) => {
    const ceiling = limits.ceilings[i]! * (1 + 1e-9);
    const reach = Number.isFinite(most[i]!) ? Math.max(most[i]!, 2 * wanted[i]!) : UNBOUNDED * wanted[i]!;
    const fit = toolsFor(product, tools, known);
    const unmeasured = fit.length === 0;
    const paper = paperTools.filter((tool) => (tool.kind === 'scale') === (product.form === 'powder'));
    const measures = upTo(product, unmeasured ? paper : fit, reach, known).filter((m) => m.amount <= ceiling);
    return { product, wanted: wanted[i]!, measures: [NOTHING, ...distinct(measures)], unmeasured };
  });
}

export const NOTHING: Measure = { tool: 'scale', words: 'leave it out', amount: 0, actions: 0, sd: 0 };

/** The measures that keep every limit, closest to the blend, then with the fewest actions; or those that miss least. */
export async function chooseDoses(
  items: readonly OpenItem[],
  limits: DoseLimits,
  settings: ChooseSettings,
): Promise<Chosen> {
  const choices = items.map((item) => choicesOf(item, settings.margin));
  const kept = await closest(choices, limits, 0);
  if (kept.picks) return chosen(items, kept.picks, 0, kept.by);
  const { slack, complete } = await leastSlack(choices, limits, kept.by !== 'best found');
  const missed = await closest(choices, limits, slack);
  if (!missed.picks) throw new Error('no doses at all, though any miss was allowed');
  return chosen(items, missed.picks, slack, complete && missed.by !== 'best found' ? missed.by : 'best found');
}

interface Closest {
  picks: number[] | null;
  by: DoseProof['by'];
}

/** By trying all; where those are too many, by an integer program; where that does not end either, the best found. */
async function closest(choices: readonly Choices[], limits: DoseLimits, slack: number): Promise<Closest> {
  const found = search(choices, limits, slack);
  if (found.complete) return { picks: found.picks, by: 'all' };
  const program = await byProgram(choices, withEc(limits.rows, limits.ecRow, 0), slack);
  if (program.picks && keepsEc(choices, program.picks, limits, slack)) {
    if (!found.picks || program.cost <= found.cost + 1e-9)
      return { picks: program.picks, by: program.proved ? 'program' : 'best found' };
  }
  return {
    picks: found.picks,
    by: program.proved && program.picks === null && !found.picks ? 'program' : 'best found',
  };
}

function search(
  choices: readonly Choices[],
  limits: DoseLimits,
  slack: number,
  more: { first?: boolean; mostNodes?: number } = {},
): Found {
  let left = MOST_ECS;
  let cut = false;
  const accept = (picks: readonly number[]): boolean => {
    if (limits.cap === null) return true;
    left -= 1;
    if (left < 0) cut = true;
    return left >= 0 && keepsEc(choices, picks, limits, slack);
  };
  const found = searchDoses(choices, withEc(limits.rows, limits.ecRow, PLANE_TRUST), { slack, accept, ...more });
  return cut ? { ...found, complete: false } : found;
}

/** The least share by which limits must be missed, to a hundredth of it. */
async function leastSlack(
  choices: readonly Choices[],
  limits: DoseLimits,
  proved: boolean,
): Promise<{ slack: number; complete: boolean }> {
  let complete = proved;
  let low = 0;
  let high = 0.01;
  const holds = (slack: number): boolean => {
    const found = search(choices, limits, slack, { first: true, mostNodes: LOOK });
    if (!found.picks && !found.complete) complete = false;
    return found.picks !== null;
  };
  while (!holds(high)) {
    low = high;
    high *= 2;
  }
  while (high - low > 0.01 * high) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return { slack: high, complete };
}

function keepsEc(
  choices: readonly Choices[],
  picks: readonly number[],
  { cap, ecOf }: DoseLimits,
  slack: number,
): boolean {
  return cap === null || ecOf(picks.map((k, i) => choices[i]!.highs[k]!)) <= cap * (1 + slack + DUST);
}

const withEc = (rows: readonly UpperRow[], ec: UpperRow | null, trust: number): UpperRow[] =>
  ec === null ? [...rows] : [...rows, { ...ec, upper: ec.upper + trust * ec.size }];

function choicesOf({ wanted, measures }: OpenItem, margin: number): Choices {
  return {
    wanted,
    amounts: measures.map((m) => m.amount),
    lows: measures.map((m) => Math.max(0, m.amount - margin * m.sd)),
    highs: measures.map((m) => m.amount + margin * m.sd),
    costs: measures.map((m) => Math.abs(m.amount - wanted) / wanted + ACTION * m.actions),
  };
}

function chosen(items: readonly OpenItem[], picks: readonly number[], slack: number, by: DoseProof['by']): Chosen {
  const measures = picks.map((k, i) => items[i]!.measures[k]!);
  const deviation = measures.reduce((sum, m, i) => sum + Math.abs(m.amount - items[i]!.wanted) / items[i]!.wanted, 0);
  return { measures, slack, by, deviation };
}

/** The most of each item that any row leaves room for, all others at nothing. */
function reachOf({ rows, ecRow, ceilings }: DoseLimits): number[] {
  return ceilings.map((ceiling, i) => {
    let most = ceiling;
    for (const row of withEc(rows, ecRow, PLANE_TRUST)) {
      if (row.terms.every((term) => term >= 0) && row.terms[i]! > 0) most = Math.min(most, row.upper / row.terms[i]!);
    }
    return most;
  });
}

/** Measures up to an amount; where the smallest is already more, the smallest alone. */
function upTo(product: Product, tools: readonly Tool[], most: number, known: readonly Product[]): Measure[] {
  for (let reach = most, tries = 0; tries < 16; reach *= 2, tries += 1) {
    const found = measuresWithin(product, tools, 0, reach, known);
    if (found.length > 0) return found;
  }
  return [];
}

/** The tools that measure a product; a liquid is weighed only where nothing else takes it. */
function toolsFor(product: Product, tools: readonly Tool[], known: readonly Product[]): readonly Tool[] {
  const fit = tools.filter((tool) => upTo(product, [tool], 1, known).length > 0);
  const volumetric = fit.filter((tool) => tool.kind !== 'scale');
  return product.form === 'liquid' && volumetric.length > 0 ? volumetric : fit;
}

/** Of several ways to one amount the one with the fewest actions, then the surest. */
function distinct(measures: readonly Measure[]): Measure[] {
  return measures.filter((m, i) => i === 0 || m.amount > measures[i - 1]!.amount * (1 + 1e-9));
}
