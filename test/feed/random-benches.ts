import { litres } from '../../src/units/index.js';
import { unwrap } from '../../src/problem.js';
import { parseRules } from '../../src/programme/parse-rule.js';
import { solve } from '../../solver/index.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { PHASES } from '../../src/programme/index.js';
import { dice } from '../solver/dice.js';
import { feedOf } from '../desk/benches.js';
import { programOf } from './program.js';

const catalog = shippedCatalog();
const salts = catalog.salts.filter((s) => !['acid', 'alkali'].includes(s.kind ?? ''));
const market = await closeShelf([...catalog.products, ...salts]);

/** Plants that are given no feed at all in some phase. */
const restsUnfed = (id: string): boolean => catalog.factors.some((row) => row.plants === id && row.factor === 0);

/** A seeded bench: a few products of the catalog in stock or not, one or two of its waters, one of its programmes, now and then a rule. */
export function randomBench(seed: number, products: number): FeedRequest {
  const d = dice(seed);
  const picked = d.pick(catalog.plants);
  const plants = restsUnfed(picked.id) ? catalog.plants[0]! : picked;
  const medium = d.pick(plants.media);
  const phase = d.pick(PHASES);
  const percent = d.whole(50, 100);
  const shelf = new Map(Array.from({ length: products }, () => d.pick(market)).map((p) => [p.id, p]));
  const waters = new Map(Array.from({ length: d.whole(1, 2) }, () => d.pick(catalog.waters)).map((w) => [w.id, w]));
  const rule = d.pick(['', '', 'NH4 <= 0.1 * N', 'Cl <= 20', 'Ca >= 3 * Mg', 'NO3 >= 0.7 * N']);
  const stock = [...shelf.values()].map((p) => (d.chance(0.2) ? p.with({ onHand: d.between(0.1, 5) }) : p));
  const spec = {
    plants: plants.id,
    medium,
    phase,
    percent,
    batchLitres: litres(4),
    rules: unwrap(parseRules(rule === '' ? [] : [rule], { owner: 'you' })),
  };
  return { ...feedOf(spec, { shelf: stock, waters: [...waters.values()] }), market };
}

/** The first so many benches that can be met, or that cannot. */
export async function benches(
  wanted: number,
  feasible: boolean,
  from: number,
  products = (seed: number): number => (feasible ? 10 + (seed % 9) : 3 + (seed % 8)),
): Promise<{ seed: number; request: FeedRequest }[]> {
  const found: { seed: number; request: FeedRequest }[] = [];
  for (let seed = from; found.length < wanted; seed += 1) {
    const made = randomBench(seed, products(seed));
    const { verdict } = await solve(programOf(made).program);
    if (verdict === (feasible ? 'optimal' : 'infeasible')) found.push({ seed, request: made });
  }
  return found;
}
