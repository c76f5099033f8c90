import type { Product } from '../catalog/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Programme } from '../programme/programme.js';
import { formatFixed, formatNumber } from '../units/index.js';
import type { AdviceReading, OwnMatch } from './advice-types.js';
import { amountsOf } from './amounts.js';
import { closeShelf } from './close.js';
import { conflictOf } from './conflict.js';
import { conductivity, ionsOfMix } from './ec.js';
import { readOut } from './readout.js';
import { ecCap, type FeedRequest } from './request.js';
import type { FeedHeader, Mix } from './results.js';
import { solveUnderCap } from './solve-goal.js';

/** The grower's own feed, at any strength. */
export interface OwnFeed {
  /** The request at so many per cent of the programme's full strength; null where it cannot be made. */
  at: (percent: number) => FeedRequest | null;
  /** The strength that the bench asks for, in per cent. */
  percent: number;
  /** The programme at full strength. */
  full: Programme;
  header: FeedHeader;
}

/** The own feed held against readings: at which strength it gives the same nitrogen, or the same EC. */
export class OwnStrengths {
  private readonly mixes = new Map<number, Promise<Mix | null>>();
  /** Why a strength is not to be had, where the program alone does not say. */
  private readonly reasons = new Map<number, string>();
  private shelf: Promise<Product[]> | undefined;
  constructor(private readonly own: OwnFeed) {}

  /** Both ends of a reading; null where it cannot be held against a feed, or no feed can be mixed at any strength. */
  async match({ counts, wanted }: AdviceReading): Promise<{ low: OwnMatch; high: OwnMatch } | null> {
    if (counts === null || wanted === null) return null;
    const low = await this.end(wanted.low, counts);
    if (low === null) return null;
    const high = wanted.high === wanted.low ? low : await this.end(wanted.high, counts);
    return high && { low, high };
  }

  /** mS/cm of the water alone (of the first, where several are blended). */
  get waterEc(): number {
    const { shelf, waters } = this.own.at(this.own.percent)!;
    return conductivity(
      ionsOfMix({ products: shelf.map(() => 0), waters: waters.map((_, i) => (i === 0 ? 1 : 0)) }, shelf, waters),
    );
  }

  private async end(wanted: number, counts: Nutrient | 'EC'): Promise<OwnMatch | null> {
    if (counts === 'EC' && wanted <= this.waterEc * (1 + NEAR))
      return this.onlyWater(
        wanted,
        `the water alone reads ${formatNumber(this.waterEc, 3)} mS/cm: nothing is left for a feed`,
      );
    const most = this.mostOf(counts);
    const goal = Math.min(wanted, most);
    const found = await this.search(goal, counts);
    if (!found) return null;
    const limit = wanted > most * (1 + NEAR) ? tooMuch(counts, most) : found.limit;
    return this.read(wanted, counts, found, limit);
  }

  /** What the programme takes at most at full strength. */
  private mostOf(counts: Nutrient | 'EC'): number {
    if (counts === 'EC') return ecCap(this.own.at(this.own.percent)!) ?? Number.POSITIVE_INFINITY;
    const band = this.own.full.bands[counts];
    return band?.max ?? Number.POSITIVE_INFINITY;
  }

  /** The strength whose cheapest mix comes nearest to a goal; every step is one that can be printed. */
  private async search(goal: number, counts: Nutrient | 'EC'): Promise<Found | null> {
    const bare = counts === 'EC' ? this.waterEc : 0;
    let best: Found | null = null;
    let percent = printable(this.guess(goal, counts));
    for (let round = 0; round < ROUNDS; round += 1) {
      const mix = await this.mixAt(percent);
      if (!mix) return this.edge(percent, best, goal, counts);
      const value = valueIn(mix, counts);
      if (!best || Math.abs(value - goal) < Math.abs(valueIn(best.mix, counts) - goal))
        best = { percent, mix, limit: null };
      const next = printable(Math.min(MOST, (percent * (goal - bare)) / Math.max(1e-9, value - bare)));
      if (Math.abs(value - goal) <= CLOSE * goal || next === percent) break;
      percent = next;
    }
    return best;
  }

  private guess(goal: number, counts: Nutrient | 'EC'): number {
    const aim = counts === 'EC' ? undefined : this.own.full.bands[counts]?.aim;
    return aim ? Math.min(MOST, (100 * goal) / aim) : this.own.percent;
  }

  /** Between a strength that can be mixed and one that cannot: the last that can. */
  private async edge(
    beyond: number,
    inside: Found | null,
    goal: number,
    counts: Nutrient | 'EC',
  ): Promise<Found | null> {
    let safe = inside;
    for (const percent of [this.own.percent, ...ANCHORS]) {
      if (safe) break;
      const mix = await this.mixAt(printable(percent));
      if (mix) safe = { percent: printable(percent), mix, limit: null };
    }
    if (!safe) return null;
    let [good, bad] = [safe.percent, beyond];
    let best = safe;
    for (let step = 0; step < 12; step += 1) {
      const middle = printable(Math.sqrt(good * bad));
      if (middle === good || middle === bad) break;
      const mix = await this.mixAt(middle);
      if (mix) {
        good = middle;
        if (Math.abs(valueIn(mix, counts) - goal) <= Math.abs(valueIn(best.mix, counts) - goal))
          best = { percent: middle, mix, limit: null };
      } else bad = middle;
    }
    return { ...best, limit: await this.why(bad, bad > good) };
  }

  private async why(percent: number, stronger: boolean): Promise<string> {
    const known = this.reasons.get(percent);
    if (known) return known;
    const request = this.own.at(percent);
    const way = stronger ? 'stronger' : 'weaker';
    if (!request) return `no ${way} feed can be asked for`;
    const { conflict } = await conflictOf({ ...request, shelf: await this.closed(request) });
    const limits = conflict
      .map((line) => line.limit)
      .slice(0, 3)
      .join(' and ');
    return `no mix from this shelf keeps every limit any ${way}${limits === '' ? '' : ` (${limits})`}`;
  }

  private async onlyWater(wanted: number, limit: string): Promise<OwnMatch> {
    const request = this.own.at(this.own.percent)!;
    const mix = readOut(
      { products: request.shelf.map(() => 0), waters: request.waters.map((_, i) => (i === 0 ? 1 : 0)) },
      request,
    );
    return this.read(wanted, 'EC', { percent: 0, mix, limit }, limit);
  }

  private mixAt(percent: number): Promise<Mix | null> {
    const before = this.mixes.get(percent);
    if (before) return before;
    const mix = this.solve(percent);
    this.mixes.set(percent, mix);
    return mix;
  }

  private async solve(percent: number): Promise<Mix | null> {
    const asked = percent > 0 && percent <= MOST ? this.own.at(percent) : null;
    if (!asked) return null;
    const { result, request, keeps } = await solveUnderCap({ ...asked, shelf: await this.closed(asked) });
    if (result.verdict.verdict !== 'optimal' || !keeps) return null;
    const mix = readOut(amountsOf(result.verdict, result.formulated), request);
    const over = this.over(mix);
    if (over) this.reasons.set(percent, over);
    return over ? null : mix;
  }

  /** Bands grow with the strength, yet nothing is advised past what the programme takes at full strength. */
  private over(mix: Mix): string | null {
    for (const { element, high } of mix.elements) {
      const most = this.own.full.bands[element]?.max;
      if (most !== undefined && high > most * (1 + CLOSE)) return tooMuch(element, most);
    }
    return null;
  }

  private closed({ shelf }: FeedRequest): Promise<Product[]> {
    this.shelf ??= closeShelf(shelf);
    return this.shelf;
  }

  private read(wanted: number, counts: Nutrient | 'EC', { percent, mix }: Found, limit: string | null): OwnMatch {
    const reached = valueIn(mix, counts);
    const near = Math.abs(reached - wanted) <= NEAR * wanted;
    const way = reached < wanted ? 'stronger' : 'weaker';
    return {
      wanted,
      reached,
      percent,
      strength: `${strengthText(percent)} %`,
      nitrogen: elementOf(mix, 'N'),
      ec: mix.ec.mSPerCm,
      elements: mix.elements.filter((e) => e.high > 0).map(({ element, mgPerLitre }) => ({ element, mgPerLitre })),
      ammoniumShare: mix.nitrogenShares?.ammonium ?? null,
      items: mix.items,
      limitedBy: near ? null : (limit ?? `no strength was found whose cheapest mix is ${way}`),
    };
  }
}

interface Found {
  percent: number;
  mix: Mix;
  limit: string | null;
}

/** A strength is printed to half a per cent of itself, so no match is nearer than that; 2 % is what level spoons never reach. */
const NEAR = 0.02;
const CLOSE = 0.005;
/** Past five times full strength no feed can be asked for. */
const MOST = 500;
const ROUNDS = 10;
/** Strengths to start from where the wanted one cannot be mixed. */
const ANCHORS = [100, 75, 50, 35, 25, 15, 10];

const valueIn = (mix: Mix, counts: Nutrient | 'EC'): number =>
  counts === 'EC' ? mix.ec.mSPerCm : elementOf(mix, counts);
const elementOf = (mix: Mix, n: Nutrient): number => mix.elements.find((e) => e.element === n)?.mgPerLitre ?? 0;
const strengthText = (percent: number): string => formatFixed(percent, percent < 10 ? 2 : 1);
const printable = (percent: number): number => Number(strengthText(percent));

function tooMuch(counts: Nutrient | 'EC', most: number): string {
  return counts === 'EC'
    ? `the EC limit of this feed is ${formatNumber(most, 3)} mS/cm`
    : `the programme of these plants takes at most ${counts} ${formatNumber(most, 3)} mg/L at full strength`;
}
