import { describe, expect, it } from 'vitest';
import { cansOf } from '../../src/blend/one/cans.js';
import { dosesOfFeed } from '../../src/desk/doses.js';
import { oneOf } from '../../src/desk/one.js';
import { openBench } from '../../src/desk/open-bench.js';
import { productsKnown } from '../../src/desk/recipe-products.js';
import { factorOf } from '../../src/feed/near.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Mix } from '../../src/feed/results.js';
import { oneSays } from '../../src/report/says/one.js';
import { goodShelf } from '../blend/good-shelves.js';

const FEEDS = {
  cattleyas: 'plants: cattleya, medium: bark, phase: growth, strength: 100 %, weekly: 12 L',
  violets: 'plants: african-violet, medium: peat, phase: bloom, strength: 75 %, weekly: 4 L',
  canes: 'plants: dendrobium, medium: bark, phase: winter, strength: 75 %, weekly: 12 L',
  moths: 'plants: phalaenopsis, medium: sphagnum, phase: growth, strength: 75 %, weekly: 8 L',
  small: 'plants: pleurothallid, medium: sphagnum, phase: growth, strength: 80 %, weekly: 8 L',
} as const;

async function bench(seed: number, kit: string, batch: string, feeds: readonly (keyof typeof FEEDS)[]) {
  const { shelf } = await goodShelf(seed);
  const lines = feeds.map((name) => `  ${name}: { ${FEEDS[name]}, batch: ${batch} }\n`).join('');
  const text = `name: any\ncurrency: EUR\nwater: { use: rain }\n${kit}\nfeeds:\n${lines}`;
  return openBench({ bench: { name: 'bench.yaml', text }, shelf: { name: 'shelf.csv', text: shelf } }, {});
}

/** How many times the usual widths a feed lies from its aims. */
const widthOf = ({ elements }: Mix): number =>
  Math.max(
    1,
    ...elements.flatMap(({ element, mgPerLitre, aim }) =>
      element !== 'N' && aim ? [factorOf(element, mgPerLitre, aim)] : [],
    ),
  );

/** Whether the feed that one of them is given by itself, diluted by some whole parts of twelve, would serve all the others as well. */
function oneServesAll(
  alone: readonly { request: FeedRequest; plan: NonNullable<Plan>; share: number }[],
  hands: Hands,
) {
  const parts = Array.from({ length: 12 }, (_, i) => i + 1).flatMap((all) =>
    Array.from({ length: all }, (_, i) => ({ mix: i + 1, water: all - i - 1, share: (i + 1) / all, off: 0 })),
  );
  const own = { asked: { factor: 1, nitrogenWithin: 0.02, without: [] } };
  return alone.some((of) =>
    alone.every(({ request, plan, share }) => {
      const aim = request.programme.bands.N!.aim!;
      const nitrogen = of.plan.mix.elements.find(({ element }) => element === 'N')!.mgPerLitre;
      return parts
        .filter((part) => Math.abs((part.share * nitrogen) / aim - 1) < 0.1)
        .some((part) => {
          const group = [
            { request: of.request, own: own.asked, parts: parts[0]! },
            { request, own: own.asked, parts: part },
          ];
          const can = cansOf(of.plan, group, hands).cans[1]!;
          const isNear = widthOf(can.mix) <= Math.max(1.1, 1.15 * widthOf(plan.mix));
          return can.violations.length === 0 && can.sure >= Math.min(0.9, share - 0.02) && isNear;
        });
    }),
  );
}

type Plan = Awaited<ReturnType<typeof dosesOfFeed>>['plan'];
type Hands = Parameters<typeof cansOf>[2];

const SPOONS = 'kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp] }';

describe('one mix for a bench', () => {
  it.each([
    ['a pen beside spoons', 50010, `${SPOONS}\npen: { scale: 500 }`, '1 US gal', ['cattleyas', 'violets', 'canes']],
    ['spoons alone', 50005, SPOONS, '4 L', ['moths', 'canes', 'small']],
  ] as const)(
    'is as sure for each feed as a mix of its own, and one where a dilution of theirs would do: %s',
    async (_, seed, kit, batch, names) => {
      const open = await bench(seed, kit, batch, names);
      const one = await oneOf(open.requests, open, {});
      const alone = [];
      for (const request of open.requests) {
        const { result, plan } = await dosesOfFeed(request, open, { bare: false }, { offers: false });
        if (result.status === 'made' && 'given' in result)
          alone.push({ request, plan: plan!, share: result.given.sure.share });
      }
      for (const { cans } of one.mixes) {
        for (const { sharing, sure, violations } of cans) {
          const own = alone.find(({ request }) => request.header.name === sharing.request.header.name)!;
          expect(sure).toBeGreaterThanOrEqual(Math.min(0.9, own.share - 0.02));
          if (own.plan.status === 'kept') expect(violations).toEqual([]);
        }
      }
      const hands = { kit: open.kit, known: productsKnown(open.catalog), sure: 0.9 };
      if (oneServesAll(alone, hands)) expect(one.mixes.length).toBe(1);
      expect(oneSays(one)).not.toMatch(/\b0 of 100/);
    },
  );
});
