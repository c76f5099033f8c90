import type { Solubility } from '../catalog/solubility.js';
import { ionSourceOf, ionSourceOfWater } from '../can/ion-sources.js';
import { sequenceOf } from '../can/sequence.js';
import { withCan } from '../can/can-cautions.js';
import { cautionsFor } from '../can/cautions.js';
import { cautioned } from '../can/in-the-can.js';
import { type IonSource, type Chemistry, type Clouding, cloudingOf, times, totalOf } from '../can/clouding.js';
import { apartFrom } from './apart.js';
import { type Split, splitHolds, splitsOf } from './assign.js';
import type { AtRatio, ConcentrateRequest } from './concentrate-request.js';
import type { ConcentrateResult, Filling, Lasts, LargestLine } from './concentrate-result.js';
import type { StockLimit } from './findings.js';
import { largest, STRONGEST, violationsOf } from './largest.js';
import { notesOf } from './notes.js';
import { type StockItem, type StockSetting, stockSetting, tankLimits } from './tank.js';
import { tankSheet } from './tank-sheet.js';
import { USUAL_RATIO, usualRatios } from './usual-ratio.js';

/**
 * Stock solutions of a feed in one or two bottles: every split of its items (up to twelve of them) is held against the saturation of
 * gypsum, brushite, calcite and struvite and the solubility of every salt at the coldest storage; the best that holds is written out.
 */
export function concentrate(
  request: ConcentrateRequest,
  chemistry: Chemistry,
  table: readonly Solubility[],
): ConcentrateResult {
  // in the order of the can, so that feed and stock speak of the same first item
  const items = sequenceOf(
    request.items.filter((item) => item.perLitre > 0),
    request.waters,
  ).turns.map(({ product, perLitre }): StockItem => ({ product, perLitre, brings: ionSourceOf(product, perLitre) }));
  const { stocked, apart } = apartFrom(items);
  const waters = request.waters.map(({ water, share }) => ionSourceOfWater(water, share));
  const fill = fillOf(request.waters);
  const filling = fill.kind === 'own' ? waters : [];
  const setting = stockSetting(chemistry, table, request.coldestCelsius, totalOf(filling.map((w) => w.ions)));
  const can = items.length === 0 ? null : cloudingOf([...items.map((i) => i.brings), ...waters], chemistry);
  const { feed, recipe, jugMillilitres, coldestCelsius, scaleStepGrams, remark, syringeMillilitres = null } = request;
  const asked = {
    ...{ feed, recipe, jugMillilitres, coldestCelsius, scaleStepGrams, syringeMillilitres, fill, apart },
    can: can && { pH: can.pH, precipitation: can.minerals },
    ...(request.shares === undefined ? {} : { shares: request.shares }),
  };
  if (stocked.length === 0)
    return {
      status: 'nothing to dissolve',
      ...asked,
      ratio: request.ratio ?? USUAL_RATIO,
      ratioBy: request.ratio === null ? 'usual' : 'asked',
      remark,
    };

  const tanksAllowed = request.tanks === null ? ([1, 2] as const) : ([request.tanks] as const);
  const counts = stocked.length === 1 ? ([1] as const) : tanksAllowed;
  const { splits, exact } = splitsOf(stocked, counts);
  const bestAt = (ratio: number): Split | undefined => splits.find((split) => splitHolds(split, ratio, setting));
  const strongest = ([1, 2] as const)
    .filter((count) => count === 1 || stocked.length > 1)
    .map((count) => largestLine(count, stocked, setting));
  const holds = inWholeDoses(
    Math.max(0, ...strongest.filter(({ tanks }) => counts.some((n) => n === tanks)).map((line) => line.ratio ?? 0)),
  );
  const usual = usualRatios(request).find((one) => bestAt(one) !== undefined);
  const isUsual = request.ratio === null && (holds === null || usual !== undefined);
  const ratio = request.ratio ?? (isUsual ? (usual ?? USUAL_RATIO) : holds!);
  const ratioBy: ConcentrateResult['ratioBy'] = request.ratio !== null ? 'asked' : isUsual ? 'usual' : 'strongest';
  const best = bestAt(ratio);
  const told = {
    ...asked,
    ratio,
    ratioBy,
    largest: strongest,
    notes: notesOf({
      request: { ...request, ratio },
      ratioBy,
      exact,
      stocked,
      can,
      largest: strongest,
      made: best !== undefined,
    }),
    // of the feed that the stock is diluted to
    cautions: withCan(
      cautionsFor(
        items.map((item) => item.product),
        feed ?? '',
      ),
      cautioned(items, request.waters, feed?.medium ?? null),
    ),
  };
  if (!best) return { status: 'too strong', ...told, violations: fewestViolations(splits, ratio, setting), holds };
  const tanks = best.map((tank, i) =>
    tankSheet({
      name: best.length === 1 ? 'stock' : i === 0 ? 'A' : 'B',
      items: items.filter((item) => tank.includes(item)),
      request: { ...request, ratio },
      clouding: cloudingOfTank(tank, filling, ratio, setting),
      limits: tankLimits(tank, ratio, setting),
    }),
  );
  return { status: 'made', ...told, tanks, lasts: lastsOf({ ...request, ratio }) };
}

/** From so many mL in a litre on, doses are told in whole ones. */
const WHOLE_DOSE = 5;

/** A dose that a measure shows, a little weaker where needed; null where no stock holds. */
function inWholeDoses(ratio: number): number | null {
  if (ratio === 0) return null;
  const dose = 1000 / ratio;
  return dose < WHOLE_DOSE ? ratio : 1000 / Math.ceil(dose - 1e-9);
}

/** Hard water throws out lime in a strong calcium stock, so such bottles are filled with pure water; mg/L as CaCO3. */
const HARD = 50;

function fillOf(waters: ConcentrateRequest['waters']): Filling {
  const alkalinity = waters.reduce((sum, { water, share }) => sum + share * water.alkalinity, 0);
  return alkalinity > HARD ? { kind: 'pure' } : { kind: 'own', waters: waters.map(({ water }) => water.name) };
}

function lastsOf({ jugMillilitres, ratio, feed, weeklyLitres }: AtRatio): Lasts {
  const feedLitres = (jugMillilitres * ratio) / 1000;
  const batch = feed?.batchLitres ?? null;
  return {
    feedLitres,
    batches: batch === null ? null : feedLitres / batch,
    weeks: weeklyLitres === null || weeklyLitres <= 0 ? null : feedLitres / weeklyLitres,
  };
}

function largestLine(tanks: 1 | 2, items: readonly StockItem[], setting: StockSetting): LargestLine {
  const { factor, limitedBy } = largest(splitsOf(items, [tanks]).splits, setting);
  const ratio =
    factor === null
      ? null
      : Math.min(STRONGEST, factor >= 10 ? Math.floor(factor + 1e-9) : Math.floor(10 * factor + 1e-9) / 10);
  return { tanks, ratio, limitedBy };
}

/** What the split that violates the fewest limits violates, so that the reason given is the real one. */
function fewestViolations(splits: readonly Split[], factor: number, setting: StockSetting): StockLimit[] {
  const [first, ...others] = splits.slice(0, 64).map((split) => violationsOf(split, factor, setting));
  return others.reduce((least, limits) => (limits.length < least.length ? limits : least), first!);
}

/** The closed bottle at 25 °C, in words; the water it is filled with counts once. */
function cloudingOfTank(
  tank: readonly StockItem[],
  waters: readonly IonSource[],
  factor: number,
  setting: StockSetting,
): Clouding {
  const strong = tank.map(
    ({ brings }): IonSource => ({
      ...brings,
      ions: times(brings.ions, factor),
      ...(brings.most ? { most: times(brings.most, factor) } : {}),
    }),
  );
  return cloudingOf([...strong, ...waters], setting.chemistry);
}
