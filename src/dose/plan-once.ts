import { atDoor } from '../door.js';
import type { Litres } from '../units/index.js';
import type { PowderKnown } from '../label/product.js';
import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import { partsOf } from '../can/part.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { problem, Refusal } from '../problem.js';
import { alternativesOf } from './alternatives.js';
import { type Chosen, chooseDoses, chooseKept, type OpenItem, openItems } from './choose.js';
import { type DoseLimits, delivered, doseLimits } from './limits.js';
import type { PlannedItem, PlanOptions, TrialPlan } from './plan-types.js';
import { notesOf } from './notes.js';
import { SearchProof } from './proof.js';
import { TOLERANCE } from '../../solver/small/index.js';
import { type Tool, toolsOf } from './tools.js';

/** A plan without offers and without an order; see `planDoses`. */
export async function planOnce(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions = {},
): Promise<TrialPlan> {
  const opened = openedFor(request, amounts, kit, options);
  const { open, limits } = opened;
  return planned(opened, request, amounts, kit, chooseDoses(open, limits));
}

/** The same where doses keep every limit; null where the search finds none, for none of the least violation is sought. */
export async function planKept(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions = {},
): Promise<TrialPlan | null> {
  const opened = openedFor(request, amounts, kit, options);
  const chosen = chooseKept(opened.open, opened.limits);
  const plan = chosen && planned(opened, request, amounts, kit, chosen);
  return plan?.status === 'kept' ? plan : null;
}

type Opened = ReturnType<typeof openedFor>;

/** The measures that are open to each item, and the limits that they are held against. */
function openedFor(request: FeedRequest, amounts: Amounts, kit: Kit, options: PlanOptions) {
  const batchLitres = batchOf(request);
  const tools = toolsOf(kit);
  const settings = {
    tools,
    known: options.known ?? request.market ?? [],
    steered: options.steered,
  };
  const indices = amounts.products.flatMap((x, i) => (x > NONE ? [i] : []));
  const wanted = indices.map((i) => amounts.products[i]! * batchLitres);
  const products = indices.map((i) => request.shelf[i]!);
  const limits = doseLimits(request, amounts, indices, batchLitres);
  return { batchLitres, tools, settings, indices, limits, open: openItems(products, wanted, limits, settings) };
}

function planned(
  { batchLitres, tools, settings, indices, limits, open }: Opened,
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  chosen: Chosen,
): TrialPlan {
  const { measures } = chosen;

  const doses = measures.map((m) => m.amount);
  const measured = delivered(doses, amounts, indices, batchLitres);
  const mix = readOut(measured, request, partsOf(measured, request.shelf));
  const violations = missesOf(mix);
  const items = open.flatMap((item, k) => (doses[k] === 0 ? [] : [plannedItem(item, measures, k, limits, settings)]));
  const told = {
    batchLitres,
    items,
    leftOut: open.flatMap(({ product, wanted }, k) => (doses[k] === 0 ? [{ product, wanted }] : [])),
    amounts: measured,
    request,
    mix,
    actions: measures.reduce((sum, m) => sum + m.actions, 0),
    tools,
    notes: notesOf(open, tools, settings.known, kit, batchLitres),
    proof: SearchProof.of(chosen, open),
  };
  return violations.length === 0
    ? { status: 'kept', ...told }
    : { status: 'violated', ...told, violations, offers: [] };
}

/** g/L or mL/L: less is no item. */
const NONE = 1e-12;

function plannedItem(
  item: OpenItem,
  measures: readonly { amount: number }[],
  k: number,
  limits: DoseLimits,
  settings: { tools: readonly Tool[]; known: readonly PowderKnown[] },
): PlannedItem {
  const doses = measures.map((m) => m.amount);
  const chosen = measures[k] as PlannedItem['chosen'];
  return {
    product: item.product,
    wanted: item.wanted,
    chosen,
    alternatives: alternativesOf(item, chosen, settings, (amount) => {
      const others = doses.map((dose, i) => (i === k ? amount : dose));
      return holds(others, limits);
    }),
  };
}

function holds(doses: readonly number[], { rows, cap, ecOf }: DoseLimits): boolean {
  return (
    rows.every((row) => row.terms.reduce((sum, t, i) => sum + t * doses[i]!, 0) <= row.upper + TOLERANCE * row.size) &&
    (cap === null || ecOf(doses) <= cap * (1 + TOLERANCE))
  );
}

function batchOf({ header }: FeedRequest): Litres {
  if (header.batchLitres !== null && header.batchLitres > 0) return header.batchLitres;
  throw new Refusal([
    problem(
      'batch-missing',
      { field: 'batch' },
      'no batch size',
      'the volume that is mixed at a time',
      atDoor({
        typed: `Give the feed ${header.name} a batch (batch: 4 L), or say --mix.`,
        page: `Fill in Mixed at a time for ${header.name} in Plants, or say how much to mix.`,
      }),
    ),
  ]);
}
