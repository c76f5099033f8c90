import type { Nutrient } from '../chemistry/nutrients.js';
import type { Programme } from '../programme/programme.js';
import { formatNumber, formatUpTo, type MilliSiemensPerCm, roundDecimals } from '../units/index.js';
import { isAboveWater, type Limited } from './findings.js';
import type { AdviceReading, OwnMatch } from './types.js';
import { whyNot } from '../why/conflict.js';
import { conductivity } from '../chemistry/conductivity.js';
import { ionsOfMix } from '../can/ec.js';
import { readOut } from '../feed/readout.js';
import { withoutCustom } from '../feed/grade.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import { cheapest } from '../formulation/index.js';
import type { FeedHeader, Mix } from '../feed/results.js';

/** The grower's own feed, at any strength. */
export interface OwnFeed {
  /** The request at so many per cent of the programme's full strength; null where it cannot be made. */
  at: (percent: number) => FeedRequest | null;
  /** What is given for a request, as `blend` gives it; null where there is no feed. */
  mix: (request: FeedRequest) => Promise<Mix | null>;
  /** The strength that the bench asks for, in per cent. */
  percent: number;
  /** The programme at full strength. */
  full: Programme;
  header: FeedHeader;
}

/** The own feed held against readings: at which strength it gives the same nitrogen, or the same EC. */
export class OwnStrengths {
  private readonly mixes = new Map<number, Promise<Mix | null>>();
  constructor(private readonly own: OwnFeed) {}

  /** Both ends of a reading; null where it cannot be held against a feed, or no feed can be mixed at any strength. */
  async match({ counts, wanted, sense }: AdviceReading): Promise<{ low: OwnMatch; high: OwnMatch } | null> {
    if (counts === null || wanted === null) return null;
    const water = isAboveWater(sense) ? this.waterEc : 0;
    const low = await this.end(wanted.low + water, counts);
    if (low === null) return null;
    const high = wanted.high === wanted.low ? low : await this.end(wanted.high + water, counts);
    return high && { low, high };
  }

  /** What the feed as it is now brings of it; null where it cannot be mixed. */
  async now(counts: Nutrient | 'EC'): Promise<number | null> {
    const mixed = await this.mixAt(printable(this.own.percent));
    return mixed && valueIn(mixed, counts);
  }

  /** mS/cm of the water alone (of the first, where several are blended). */
  get waterEc(): MilliSiemensPerCm {
    const { shelf, waters } = this.own.at(this.own.percent)!;
    return conductivity(
      ionsOfMix({ products: shelf.map(() => 0), waters: waters.map((_, i) => (i === 0 ? 1 : 0)) }, shelf, waters),
    );
  }

  private async end(wanted: number, counts: Nutrient | 'EC'): Promise<OwnMatch | null> {
    if (counts === 'EC' && wanted <= this.waterEc * (1 + NEAR))
      return this.onlyWater(wanted, { kind: 'water', mSPerCm: this.waterEc });
    const most = this.mostOf(counts);
    const goal = Math.min(wanted, most);
    const found = await this.search(goal, counts);
    if (!found) return null;
    const over = wanted > most * (1 + NEAR) ? atMost(counts, most) : null;
    const limit = found.percent >= MOST ? (found.limit ?? over) : (over ?? found.limit);
    return this.read(wanted, counts, found, limit);
  }

  /** What the programme takes at most at full strength. */
  private mostOf(counts: Nutrient | 'EC'): number {
    if (counts === 'EC') return ecCap(this.own.at(this.own.percent)!) ?? Number.POSITIVE_INFINITY;
    const band = this.own.full.bands[counts];
    return band?.max ?? Number.POSITIVE_INFINITY;
  }

  /**
   * The strength whose mix comes nearest to a goal; every step is one that can be printed. Doses come in the steps of a kit, so that a mix
   * stands still and then jumps: once strengths on both sides are known, the next lies between them.
   */
  private async search(goal: number, counts: Nutrient | 'EC'): Promise<Found | null> {
    const bare = counts === 'EC' ? this.waterEc : 0;
    let best: Found | null = null;
    let [under, over] = [0, Number.POSITIVE_INFINITY];
    let percent = printable(this.guess(goal, counts));
    for (let round = 0; round < ROUNDS; round += 1) {
      const mixed = await this.mixAt(percent);
      if (!mixed) return this.edge(percent, best, goal, counts);
      const value = valueIn(mixed, counts);
      const off = Math.abs(value - goal);
      if (!best || off < Math.abs(valueIn(best.mix, counts) - goal)) best = { percent, mix: mixed, limit: null };
      if (off <= (round < FEW_ROUNDS ? CLOSE : CLOSE_ENOUGH) * goal) break;
      if (value < goal) under = Math.max(under, percent);
      else over = Math.min(over, percent);
      const straight = printable(Math.min(MOST, (percent * (goal - bare)) / Math.max(1e-9, value - bare)));
      const between = printable((under + over) / 2);
      const next = (straight > under && straight < over) || !(over > under && over <= MOST) ? straight : between;
      if (next === percent || next === under || next === over) {
        best.betweenSteps = under > 0 && over <= MOST;
        break;
      }
      percent = next;
    }
    if (best !== null && best.percent >= MOST && valueIn(best.mix, counts) < goal)
      best.limit = { kind: 'full strength' };
    return best;
  }

  private guess(goal: number, counts: Nutrient | 'EC'): number {
    const aim = counts === 'EC' ? undefined : this.own.full.bands[counts]?.aim;
    return aim ? Math.min(MOST, (100 * goal) / aim) : Math.min(MOST, this.own.percent);
  }

  /** Between a strength that can be mixed and one that cannot: the last that can. */
  private async edge(
    beyond: number,
    inside: Found | null,
    goal: number,
    counts: Nutrient | 'EC',
  ): Promise<Found | null> {
    let safe = inside;
    for (const percent of [Math.min(MOST, this.own.percent), ...ANCHORS]) {
      if (safe) break;
      const mixed = await this.mixAt(printable(percent));
      if (mixed) safe = { percent: printable(percent), mix: mixed, limit: null };
    }
    if (!safe) return null;
    let [good, bad] = [safe.percent, beyond];
    for (let step = 0; step < 12; step += 1) {
      const middle = printable(Math.sqrt(good * bad));
      if (middle === good || middle === bad) break;
      if (await this.exists(middle)) good = middle;
      else bad = middle;
    }
    const last = await this.mixAt(good);
    const isNearer = last && Math.abs(valueIn(last, counts) - goal) <= Math.abs(valueIn(safe.mix, counts) - goal);
    const best = isNearer ? { percent: good, mix: last, limit: null } : safe;
    return { ...best, limit: await this.why(bad, bad > good) };
  }

  /** Whether a strength has a mix at all: one program, where doses would be a whole plan. */
  private async exists(percent: number): Promise<boolean> {
    const asked = percent > 0 && percent <= MOST ? this.own.at(percent) : null;
    if (!asked) return false;
    return (await cheapest({ ...asked, programme: withoutCustom(asked.programme) })).answer === 'found';
  }

  private async why(percent: number, stronger: boolean): Promise<Limited> {
    const request = this.own.at(percent);
    const way = stronger ? 'stronger' : 'weaker';
    if (!request) return { kind: 'strength', way };
    const why = await whyNot(request);
    return { kind: 'shelf', way, limits: (why?.conflict ?? []).map((line) => line.limit).slice(0, MOST_LIMITS) };
  }

  private async onlyWater(wanted: number, limit: Limited): Promise<OwnMatch> {
    const request = this.own.at(this.own.percent)!;
    const mix = readOut(
      { products: request.shelf.map(() => 0), waters: request.waters.map((_, i) => (i === 0 ? 1 : 0)) },
      request,
    );
    return this.read(wanted, 'EC', { percent: 0, mix, limit }, limit);
  }

  /** The mix near the aims of a strength; no strength past full is advised. */
  private mixAt(percent: number): Promise<Mix | null> {
    const before = this.mixes.get(percent);
    if (before) return before;
    const mix = this.solve(percent);
    this.mixes.set(percent, mix);
    return mix;
  }

  private async solve(percent: number): Promise<Mix | null> {
    const asked = percent > 0 && percent <= MOST ? this.own.at(percent) : null;
    return asked && this.own.mix(asked);
  }

  private read(
    wanted: number,
    counts: Nutrient | 'EC',
    { percent, mix, betweenSteps }: Found,
    limit: Limited | null,
  ): OwnMatch {
    const reached = valueIn(mix, counts);
    const near = Math.abs(reached - wanted) <= (betweenSteps ? ONE_STEP : NEAR) * wanted;
    const way = reached < wanted ? 'stronger' : 'weaker';
    return {
      wanted,
      reached,
      percent,
      nitrogen: elementOf(mix, 'N'),
      ec: mix.ec.mSPerCm,
      elements: mix.elements.filter((e) => e.high > 0).map(({ element, mgPerLitre }) => ({ element, mgPerLitre })),
      ammoniumShare: mix.nitrogenShares?.ammonium ?? null,
      items: mix.items,
      can: { ammonia: mix.ammonia, iron: mix.iron, alkalinity: mix.alkalinity },
      limitedBy: near ? null : (limit ?? { kind: 'not found', way }),
    };
  }
}

interface Found {
  percent: number;
  mix: Mix;
  limit: Limited | null;
  /** The next printable strengths lie on both sides of what is wanted: the kit has no step between them. */
  betweenSteps?: boolean;
}

/** A strength is printed to half a per cent of itself, so no match is nearer than that; 2 % is what level spoons never reach. */
const NEAR = 0.02;
const CLOSE = 0.005;
/** Where two steps of the kit lie on either side of a wish, the nearer is as advised up to here: a pen in a grower's hands is no better (common practice, no source). */
const ONE_STEP = 0.05;
/** Full strength: no feed past it is advised, whatever others say. */
const MOST = 100;
const ROUNDS = 12;
/** After so many rounds a mix this near is taken: most steps of a kit are coarser. */
const FEW_ROUNDS = 4;
const CLOSE_ENOUGH = 0.01;
/** Limits of a conflict that are named. */
const MOST_LIMITS = 3;
/** Strengths to start from where the wanted one cannot be mixed. */
const ANCHORS = [100, 75, 50, 35, 25, 15, 10];

const valueIn = (mix: Mix, counts: Nutrient | 'EC'): number =>
  counts === 'EC' ? mix.ec.mSPerCm : elementOf(mix, counts);
const elementOf = (mix: Mix, n: Nutrient): number => mix.elements.find((e) => e.element === n)?.mgPerLitre ?? 0;
/** A strength in per cent, as `blend --strength` takes it. */
export const strengthText = (percent: number): string => formatUpTo(percent, decimalsAt(percent));
const decimalsAt = (percent: number): number => (percent < 10 ? 2 : 1);
const printable = (percent: number): number => roundDecimals(percent, decimalsAt(percent));

function atMost(counts: Nutrient | 'EC', most: number): Limited {
  if (counts === 'EC') return { kind: 'EC limit', mSPerCm: most };
  return { kind: 'programme', rules: [`${counts} <= ${formatNumber(most, 3)}`] };
}
