import { atDoor } from '../door.js';
import type { FeedSpec } from '../catalog/bench-types.js';
import { resolveProgramme } from '../programme/resolve.js';
import { atStrength } from '../programme/strength.js';
import { WHILE_MIXING } from '../can/sequence.js';
import { lastingSpread } from '../chance/lasting.js';
import { withBulkDensity } from '../dose/density.js';
import { type Measure, measuresWithin } from '../dose/measure.js';
import { type Tool, toolsOf } from '../dose/tools.js';
import { isEmptyKit, USUAL_KIT } from '../dose/usual-kit.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { BatchItem } from '../meter/index.js';
import { type Problem, problem } from '../problem.js';
import { type CodedBatch, type CodedItem, onBench, type SheetCode } from '../sheet/code.js';
import { formatNumber, litres } from '../units/index.js';
import type { Collected } from './collected.js';
import type { Planned } from './meter-plan.js';
import type { OpenBench } from './opened.js';
import { productsKnown } from './recipe-products.js';

/** The bench with the one feed that a sheet was for, as strong as it was then and for as much; and the batch. Both as they were where there is no code. */
export function ofSheet(
  open: OpenBench,
  code: SheetCode | undefined,
  collected: Collected,
): { open: OpenBench; batch?: CodedBatch } {
  if (code === undefined) return { open };
  const found = onBench(code, {
    feeds: open.feeds.map(({ name }) => name),
    products: open.shelf.products.map(({ id }) => id),
    waters: open.waters.map(({ id }) => id),
  });
  if (found.kind !== 'found') {
    collected.add(notOnBench(found, code, open));
    // that no single feed is named is told already
    return { open: { ...open, feeds: open.feeds.slice(0, 1) } };
  }
  const { batch } = found;
  const feeds = open.feeds
    .filter(({ name }) => name === batch.feed)
    .map((spec) => ({
      ...spec,
      batchLitres: litres(batch.litres),
      ...(batch.strength === null || isAtStrength(spec, batch.strength, open)
        ? {}
        : { strength: { kind: 'percent' as const, percent: Math.round(1000 * batch.strength) / 10 } }),
    }));
  return { open: { ...open, feeds }, batch };
}

/** Whether a feed is as strong as that, to the half step of a code. */
function isAtStrength({ plants, medium, phase, strength, where }: FeedSpec, factor: number, { catalog }: OpenBench) {
  const full = resolveProgramme(catalog, plants, medium, phase, where);
  const now = full.ok ? atStrength(full.value, strength, where) : full;
  return now.ok && Math.abs(now.value.factor - factor) <= 0.001;
}

const RECIPE = atDoor({ typed: 'or say what was mixed with --recipe.', page: 'or mix it anew.' });

function notOnBench(found: Exclude<ReturnType<typeof onBench>, { kind: 'found' }>, code: SheetCode, open: OpenBench) {
  const refused = (what: string, expected: string, fix: string): Problem =>
    problem('sheet-not-of-bench', { field: '--sheet' }, what, expected, `${fix}, ${RECIPE}`);
  switch (found.kind) {
    case 'no feed':
      return refused(
        `the sheet of a feed that is none of ${open.feeds.map(({ name }) => name).join(', ') || 'this bench'}`,
        'a sheet of a feed of this bench',
        atDoor({
          typed: 'Name the bench it was made on with --bench, or give the feed its old name in bench.yaml',
          page: 'Give the feed its old name in Plants',
        }),
      );
    case 'no product': {
      const places = found.items.map((i) => `${i + 2} (${code.items[i]!.amount} g or mL)`).join(', ');
      return refused(
        `a sheet whose step ${places} is no product of the shelf`,
        'products that stand on the shelf',
        atDoor({
          typed: 'Give the product its row in shelf.csv again, add it with --with if the catalog has it',
          page: 'Put the product on the shelf again',
        }),
      );
    }
    case 'no water':
      return refused(
        'a sheet with another water',
        'a water of the bench',
        atDoor({ typed: 'Name its waters with --water', page: 'Choose its water in Plants' }),
      );
    case 'other bench':
      return refused(
        'a sheet whose feed and products are not those of this bench',
        'a sheet of this bench',
        atDoor({
          typed: 'Name the bench it was made on with --bench',
          page: 'Bring in the files of the bench it was made on',
        }),
      );
    case 'unclear':
      return refused(
        `a code that fits ${found.batches.length} batches of this shelf`,
        'one batch',
        atDoor({
          typed: 'Leave products that were not in it out with --without',
          page: 'Take products that were not in it off the shelf',
        }),
      );
    default:
      return found satisfies never;
  }
}

/** The batch of a code as the plan, in the very order and as full as its sheet said. */
export function planOfCode(batch: CodedBatch, request: FeedRequest, open: OpenBench): Planned {
  const known = productsKnown(open.catalog);
  const shelf = request.shelf.map((product) => withBulkDensity(product, known));
  const tools = toolsOf(isEmptyKit(open.kit) ? { ...open.kit, ...USUAL_KIT } : open.kit);
  const items = batch.items.map((item, i): BatchItem => {
    const product = shelf.find(({ id }) => id === item.id)!;
    const { amount, sd, words } = handOf(item, product, tools, known);
    const full = i < batch.beforeFull ? WHILE_MIXING : 1;
    const lasting = lastingSpread(product, item.tool, tools, known);
    return { product, planned: amount, sd, words, bySpoon: item.tool === 'spoon', tool: item.tool, lasting, full };
  });
  const { waters } = open;
  const told = batch.waters.map(({ id, share }) => ({ water: waters.find((water) => water.id === id)!, share }));
  return {
    batch: {
      items,
      waters: told.length > 0 ? told : waters.map((water) => ({ water, share: 1 / waters.length })),
      litres: litres(batch.litres),
    },
    request: { ...request, shelf },
    notes: told.length === 0 && waters.length > 1 ? [{ kind: 'equal waters' }] : [],
  };
}

/** The measure of the kit that it was, as long as it still delivers that amount; else the amount alone. */
export function handOf(
  { amount, tool }: CodedItem,
  product: ClosedProduct,
  tools: readonly Tool[],
  known: ReturnType<typeof productsKnown>,
): Pick<Measure, 'amount' | 'sd' | 'words'> {
  const near = measuresWithin(product, tools, amount * (1 - SAME), amount * (1 + SAME), known)
    .filter((measure) => measure.tool === tool)
    .sort((a, b) => Math.abs(a.amount - amount) - Math.abs(b.amount - amount));
  if (near[0]) return near[0];
  const own = tools.find(({ kind }) => kind === tool);
  const words = `${formatNumber(amount, 5)} ${product.form === 'powder' ? 'g' : 'mL'}`;
  return { amount, words, sd: tool === 'scale' && own ? own.error : amount * BY_HAND[tool] };
}

/** A code holds three digits: half of the last one. */
const SAME = 0.005;
/** What hands are off where the kit that measured it is gone (level spoons as in recipes, from memory). */
const BY_HAND = { spoon: 0.1, pen: 0.1, dropper: 0.1, syringe: 0.05, scale: 0.03 } as const;
