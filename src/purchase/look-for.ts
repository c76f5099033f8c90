import { solve } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { pow } from '../units/elementary.js';
import { oxidePerElement } from '../chemistry/oxides.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { type Joint, jointProgram } from './program.js';
import { isOver } from './search.js';
import type { LookedFor, LookFor, PurchaseOptions } from './types.js';

/** A label serves as well where so much more of it is enough. */
const TENTH = 0.1;
/** Times and parts of a figure that are tried at all. */
const WIDEST = 3;
const STEPS = 4;
/** Shares of the ranges of each figure alone that are tried for all figures at once. */
const SHRINKING = [1, 0.7, 0.5, 0.35, 0.25, 0.15, 0.08, 0];

const FIGURES: readonly Nutrient[] = ['N', 'P', 'K', 'Ca', 'Mg'];
const FORMS: readonly Nutrient[] = ['N', 'NO3-N', 'NH4-N', 'urea-N', 'other-N'];
const TRACES: readonly Nutrient[] = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'];

/** A hypothetical label: figures as times those of the product, nitrate as a share of its nitrogen, with traces or without. */
interface Trial {
  times: ReadonlyMap<Nutrient, number>;
  nitrate: number | null;
  traces: boolean;
}

/**
 * The labels that would do as well as the invented products of a purchase: ranges of their figures, all of which serve every feed near its
 * aims with at most a tenth more of the product, the other packs as they are. A range is found for each figure alone by bisection, then all
 * ranges are narrowed together until every corner of them serves; what serves at the corners serves between them.
 */
export async function lookFor(joint: Joint, counts: readonly number[], options: PurchaseOptions): Promise<LookFor[]> {
  const found: LookFor[] = [];
  for (const [i, { product }] of joint.pool.entries()) {
    if (!(counts[i]! > 0) || product.evidence !== 'invented' || isOver(options)) continue;
    const told = await rangesOf(product, (trial) => serves(joint, counts, i, trial));
    if (told) found.push(told);
  }
  return found;
}

async function rangesOf(product: ClosedProduct, does: (trial: Trial) => Promise<boolean>): Promise<LookFor | null> {
  const { content, per } = product.composition;
  const shareNow = nitrateShare(product);
  const base: Trial = { times: new Map(), nitrate: shareNow, traces: true };
  if (!(await does(base))) return null;
  const held = FIGURES.filter((n) => (content[n].stated ?? content[n].low) > 0);
  const alone = new Map<Nutrient, [number, number]>();
  for (const n of held) {
    const end = (out: number) => farthest(out, (times) => does({ ...base, times: new Map([[n, times]]) }));
    alone.set(n, [await end(1 / WIDEST), await end(WIDEST)]);
  }
  const leastNitrate = shareNow === null ? null : await leastShare(shareNow, (nitrate) => does({ ...base, nitrate }));
  for (const part of SHRINKING) {
    const ranges = new Map([...alone].map(([n, [low, high]]) => [n, [pow(low, part), pow(high, part)] as const]));
    const nitrate = leastNitrate === null ? null : shareNow! - part * (shareNow! - leastNitrate);
    if (!(await everyCorner(ranges, nitrate, base, does))) continue;
    const shown = [...ranges].map(([n, [low, high]]): LookedFor => {
      const now = (content[n].stated ?? content[n].low) * printedAs(n);
      return { figure: n, least: (now * low) / 10, now: now / 10, most: (now * high) / 10 };
    });
    const holdsTraces = TRACES.some((n) => (content[n].stated ?? content[n].low) > 0);
    const traces = !holdsTraces ? 'none' : (await does({ ...base, traces: false })) ? 'either' : 'needed';
    const { id, name } = product;
    return { id, name, form: per === 'g' ? 'powder' : 'liquid', figures: shown, nitrate, traces };
  }
  return null;
}

/** The farthest from 1, on the way to `out`, that still does; a power of `out`. */
async function farthest(out: number, does: (times: number) => Promise<boolean>): Promise<number> {
  if (await does(out)) return out;
  let [good, bad] = [0, 1];
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (good + bad) / 2;
    if (await does(pow(out, middle))) good = middle;
    else bad = middle;
  }
  return pow(out, good);
}

async function leastShare(now: number, does: (share: number) => Promise<boolean>): Promise<number> {
  if (await does(0)) return 0;
  let [good, bad] = [now, 0];
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (good + bad) / 2;
    if (await does(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

async function everyCorner(
  ranges: ReadonlyMap<Nutrient, readonly [number, number]>,
  nitrate: number | null,
  base: Trial,
  does: (trial: Trial) => Promise<boolean>,
): Promise<boolean> {
  const names = [...ranges.keys()];
  const shares = nitrate === null || nitrate === base.nitrate ? [base.nitrate] : [nitrate, base.nitrate];
  for (let corner = 0; corner < 2 ** names.length; corner += 1) {
    const times = new Map(names.map((n, k) => [n, ranges.get(n)![(corner >> k) & 1]!]));
    for (const share of shares) if (!(await does({ ...base, times, nitrate: share }))) return false;
  }
  return true;
}

/** Whether the packs, with one product as the trial has it and a tenth more of that, serve every feed as it is held. */
async function serves(joint: Joint, counts: readonly number[], at: number, trial: Trial): Promise<boolean> {
  const shelf = joint.pool.flatMap(({ product, onHand, offer }, i) => {
    if (onHand === null) return [product];
    const stock = onHand + counts[i]! * (offer?.pack ?? 0) * (i === at ? 1 + TENTH : 1);
    return stock > 0 ? [(i === at ? asTried(product, trial) : product).with({ onHand: stock })] : [];
  });
  const { atMost: _, budget: __, need: ___, ...request } = joint.request;
  const { program } = jointProgram({ ...request, shelf, market: [] });
  return (await solve(program)).verdict === 'optimal';
}

function asTried(product: ClosedProduct, { times, nitrate, traces }: Trial): ClosedProduct {
  const { content } = product.composition;
  const nitrogen = content.N.stated ?? content.N.low;
  return product.asIfItHeld((n) => {
    if (!traces && TRACES.includes(n)) return 0;
    const scale = times.get(FORMS.includes(n) ? 'N' : n) ?? 1;
    if (nitrate === null || nitrate === nitrateShare(product)) return (content[n].stated ?? content[n].low) * scale;
    if (n === 'NO3-N') return nitrogen * scale * nitrate;
    // what is not nitrate is taken as ammonium, which feeds bear least of
    if (n === 'NH4-N') return nitrogen * scale * (1 - nitrate);
    if (n === 'urea-N' || n === 'other-N') return 0;
    return (content[n].stated ?? content[n].low) * scale;
  });
}

/** Share of the nitrogen that is nitrate; null without nitrogen, or where the label does not say. */
function nitrateShare({ composition: { content } }: ClosedProduct): number | null {
  const all = content.N.stated ?? content.N.low;
  const nitrate = content['NO3-N'].stated;
  return all > 0 && nitrate !== null ? Math.min(1, nitrate / all) : null;
}

/** Labels print phosphorus and potassium as oxides. */
function printedAs(nutrient: Nutrient): number {
  if (nutrient === 'P') return oxidePerElement('P2O5');
  return nutrient === 'K' ? oxidePerElement('K2O') : 1;
}
