import { heldNear } from '../../src/purchase/held.js';
import { litres } from '../../src/units/index.js';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import type { Water } from '../../src/label/product.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import type { PurchaseRequest } from '../../src/purchase/types.js';
import type { Band } from '../../src/programme/programme.js';
import { type Dice, dice } from '../solver/dice.js';
import { independent } from '../solver/independent.js';
import { powder, pure, request, water } from '../feed/fixtures.js';

const NUTRIENTS = ['K', 'Ca', 'Mg', 'S'] as const;

/** A small purchase: one to three feeds, a market of at most 12 candidate packs, a bare or half-full shelf. */
export function smallPurchase(seed: number): PurchaseRequest {
  const d = dice(seed);
  const feeds = Array.from({ length: d.whole(1, 3) }, () => ({ bands: bands(d), weeklyLitres: d.whole(1, 20) }));
  const weeks = d.whole(1, 60);
  const waters: Water[] = [pure, ...(d.chance(0.3) ? [tap(d)] : [])];
  let packs = 0;
  const market: ClosedProduct[] = [];
  for (let i = 0; i < 7; i += 1) {
    const product = powder(i === 0 ? '__proto__' : `m${i}`, contents(d));
    const most = feeds.reduce((sum, feed) => sum + mostDose(product, feed.bands) * feed.weeklyLitres * weeks, 0);
    const count = d.whole(1, 3);
    if (!Number.isFinite(most) || packs + count > 12) continue;
    packs += count;
    market.push(
      product.with({
        pack: most / (count - 0.5 * d.unit()),
        price: Math.round(d.between(10, 300)) / 10 + 1e-3 * i,
      }),
    );
  }
  const shelf = [
    ...(d.chance(0.12) ? [powder('full', { K: 4, Ca: 4, Mg: 4, S: 4 }, { onHand: 1e5 })] : []),
    ...(d.chance(0.6)
      ? [powder('s0', contents(d), { onHand: d.pick([0, d.between(1, 200)]), pack: 100, price: 3 })]
      : []),
    ...market.slice(0, 1).flatMap((p) => (d.chance(0.4) ? [p.with({ onHand: d.between(0, 0.4) * p.pack! })] : [])),
  ];
  return {
    feeds: feeds.map(({ bands: b, weeklyLitres }, i) => ({
      request: named(request([], b, { waters }), `f${i}`),
      weeklyLitres: litres(weeklyLitres),
    })),
    weeks,
    shelf,
    market,
    marketName: 'market',
    currency: 'EUR',
    ...(d.chance(0.25) ? { atMost: d.whole(0, 3) } : {}),
    ...(d.chance(0.2) ? { budget: d.between(5, 60) } : {}),
    ...(d.chance(0.2) && market[1] ? { ban: [market[1].id] } : {}),
    ...(d.chance(0.2) && market[2] ? { need: [market[2].id] } : {}),
  };
}

interface Ways {
  offers: ClosedProduct[];
  /** Counts in the order of the offers: every combination, and those that the grower's wishes allow, the cheapest first. */
  all: number[][];
  allowed: number[][];
  spend: (way: number[]) => number;
}

function waysOf(request: PurchaseRequest): Ways {
  const offers = request.market.filter((p) => !request.ban?.includes(p.id));
  const onShelf = new Set(request.shelf.map((p) => p.id));
  const all = offers.reduce<number[][]>(
    (ways, product) => {
      const use = request.feeds.reduce(
        (sum, f) => sum + mostDose(product, f.request.programme.bands) * f.weeklyLitres * request.weeks,
        0,
      );
      const counts = Array.from({ length: Math.ceil(use / product.pack! - 1e-9) + 1 }, (_, n) => n);
      return ways.flatMap((way) => counts.map((n) => [...way, n]));
    },
    [[]],
  );
  const spend = (way: number[]): number => way.reduce((sum, n, i) => sum + n * offers[i]!.price!, 0);
  const fresh = (way: number[]): number => way.filter((n, i) => n > 0 && !onShelf.has(offers[i]!.id)).length;
  const allowed = all
    .filter((way) => offers.every((p, i) => !request.need?.includes(p.id) || way[i]! > 0))
    .filter((way) => request.budget === undefined || spend(way) <= request.budget)
    .filter((way) => request.atMost === undefined || fresh(way) <= request.atMost)
    .sort((a, b) => spend(a) - spend(b));
  return { offers, all, allowed, spend };
}

/** The request with its feeds held near, as a purchase holds them: how near the market comes is held against other doors in test/blend. */
const held = async (asked: PurchaseRequest): Promise<PurchaseRequest> => (await heldNear(asked, 1, {}))!.request;

/** The fewest different products with which all feeds can be mixed, by going through all ways, and the least spend with so few; null where none does. */
export async function fewestByBruteForce(
  asked: PurchaseRequest,
  counted: 'all' | 'new',
): Promise<{ products: number; total: number } | null> {
  const request = await held(asked);
  const { offers, allowed } = waysOf(request);
  const owned = new Set(request.shelf.map(({ id }) => id));
  const products = (way: number[]): number =>
    way.filter((n, i) => n > 0 && (counted === 'all' || !owned.has(offers[i]!.id))).length;
  const fails: number[][] = [];
  let best: { products: number; total: number } | null = null;
  for (const way of [...allowed].sort((a, b) => products(a) - products(b))) {
    if (best !== null && products(way) > best.products) break;
    if (fails.some((f) => way.every((n, i) => n <= f[i]!))) continue;
    const water = await waterCost(request, offers, way);
    if (water === null) {
      fails.push(way);
      continue;
    }
    const total = water + way.reduce((sum, n, i) => sum + n * offers[i]!.price!, 0);
    if (best === null || total < best.total) best = { products: products(way), total };
  }
  return best;
}

/** What every way to buy costs, packs and water, by going through all of them; the cheapest. */
export async function bruteForce(asked: PurchaseRequest): Promise<{ counts: Map<string, number>; total: number }[]> {
  const most = 1;
  const request = await held(asked);
  const { offers, all, allowed, spend } = waysOf(request);
  // water has a price only where the second water is there; then every way has to be priced
  const priced = request.feeds[0]!.request.waters.length > 1;
  const costed: { way: number[]; total: number }[] = [];
  const listed: { way: number[]; total: number }[] = [];
  const differs = (way: number[]): boolean =>
    listed.every((l) => way.some((n, i) => n < l.way[i]!) && way.some((n, i) => n > 0 !== l.way[i]! > 0));
  // more packs never do harm, so a way within one that fails fails too; all packs together are tried first
  const fails: number[][] = [];
  const everything = offers.map((_, i) => Math.max(...all.map((way) => way[i]!)));
  if ((await waterCost(request, offers, everything)) === null) return [];
  for (const way of allowed) {
    if (fails.some((f) => way.every((n, i) => n <= f[i]!))) continue;
    if (!priced && (listed.length === most || !differs(way))) continue;
    const water = await waterCost(request, offers, way);
    if (water === null) {
      fails.push(way);
      continue;
    }
    if (priced) costed.push({ way, total: spend(way) + water });
    else listed.push({ way, total: spend(way) });
  }
  for (const line of costed.sort((a, b) => a.total - b.total)) {
    if (listed.length < most && differs(line.way)) listed.push(line);
  }
  return listed.map(({ way, total }) => ({
    counts: new Map(way.flatMap((n, i) => (n > 0 ? [[offers[i]!.id, n] as const] : []))),
    total,
  }));
}

/** Least money for water with these packs, or null where they do not do: written out anew, solved by the other door. */
async function waterCost(request: PurchaseRequest, offers: ClosedProduct[], way: number[]): Promise<number | null> {
  const stocks = new Map<string, { product: ClosedProduct; grams: number }>();
  for (const product of request.shelf) stocks.set(product.id, { product, grams: product.onHand ?? 1e9 });
  offers.forEach((product, i) => {
    const before = stocks.get(product.id);
    stocks.set(product.id, {
      product: before?.product ?? product,
      grams: (before?.grams ?? 0) + way[i]! * product.pack!,
    });
  });
  const jars = [...stocks.values()];
  const columns: { id: string; cost: number; lower?: number; upper?: number }[] = [];
  const rows: { id: string; lower?: number; upper?: number; terms: Record<string, number> }[] = [];
  request.feeds.forEach(({ request: feed, weeklyLitres }, f) => {
    const litres = weeklyLitres * request.weeks;
    columns.push(...jars.map((_, j) => ({ id: `x${f}_${j}`, cost: 0 })));
    columns.push(...feed.waters.map((w, k) => ({ id: `w${f}_${k}`, cost: litres * w.pricePerLitre })));
    rows.push({
      id: `w${f}`,
      lower: 1,
      upper: 1,
      terms: Object.fromEntries(feed.waters.map((_, k) => [`w${f}_${k}`, 1])),
    });
    for (const n of NUTRIENTS) {
      const band = feed.programme.bands[n];
      if (!band) continue;
      const terms = Object.fromEntries([
        ...jars.map(({ product }, j) => [`x${f}_${j}`, product.composition.content[n].low]),
        ...feed.waters.map((w, k) => [`w${f}_${k}`, w.mgPerLitre[n] ?? 0]),
      ]) as Record<string, number>;
      const near = feed.near?.[n];
      const lower = Math.max(band.min ?? 0, near?.least ?? 0);
      rows.push({ id: `${n}${f}`, lower, upper: Math.min(band.max!, near?.most ?? Number.POSITIVE_INFINITY), terms });
    }
  });
  jars.forEach(({ grams }, j) => {
    const terms = Object.fromEntries(request.feeds.map((feed, f) => [`x${f}_${j}`, feed.weeklyLitres * request.weeks]));
    rows.push({ id: `stock${j}`, upper: grams, terms });
  });
  const { status, objective } = await independent({ columns, rows });
  if (status !== 'optimal' && status !== 'infeasible') throw new Error(`the other door says ${status}`);
  return status === 'optimal' ? objective : null;
}

function bands(d: Dice): Partial<Record<Nutrient, Band>> {
  return Object.fromEntries(
    NUTRIENTS.map((n) => {
      const min = d.chance(0.8) ? d.between(5, 40) : 0;
      return [n, { min, aim: min + 10, max: min + d.between(30, 200) }];
    }),
  );
}

function contents(d: Dice): Partial<Record<Nutrient, number>> {
  const some = NUTRIENTS.filter(() => d.chance(0.45));
  return Object.fromEntries((some.length > 0 ? some : [d.pick(NUTRIENTS)]).map((n) => [n, d.between(3, 30)]));
}

function mostDose(product: ClosedProduct, band: Partial<Record<Nutrient, Band>>): number {
  return Math.min(
    ...NUTRIENTS.map((n) => {
      const content = product.composition.content[n].low;
      return content > 0 && band[n] ? band[n].max! / content : Number.POSITIVE_INFINITY;
    }),
  );
}

function tap(d: Dice): Water {
  return water({
    id: 'tap',
    name: 'tap',
    mgPerLitre: { Ca: d.between(10, 60), Mg: d.between(1, 15) },
    pricePerLitre: 0.002,
  });
}

const named = (r: ReturnType<typeof request>, name: string): ReturnType<typeof request> => ({
  ...r,
  header: { ...r.header, name },
});

/** Whether these products alone serve every feed as near as the whole market could. */
export async function isServed(asked: PurchaseRequest, products: readonly ClosedProduct[]): Promise<boolean> {
  return (await waterCost({ ...(await held(asked)), shelf: [...products] }, [], [])) !== null;
}
