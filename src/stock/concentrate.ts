import type { Solubility } from '../catalog/solubility.js';
import { ionSourceOf, ionSourceOfWater } from '../can/ion-sources.js';
import { sequenceOf } from '../can/sequence.js';
import { cautionsFor } from '../can/cautions.js';
import { type IonSource, type Chemistry, type Clouding, cloudingOf, times, totalOf } from '../can/clouding.js';
import { apartFrom } from './apart.js';
import { type Split, splitHolds, splitsOf } from './assign.js';
import type { ConcentrateRequest } from './concentrate-request.js';
import type { ConcentrateResult, LargestLine } from './concentrate-result.js';
import { broken, largest, STRONGEST } from './largest.js';
import { JAR_TEST, keepingOf, lastsOf, notesOf, useOf } from './stock-words.js';
import { type StockItem, type StockSetting, stockSetting, tankLimits } from './tank.js';
import { tankSheet } from './tank-sheet.js';

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
  const filling = fill.own ? waters : [];
  const setting = stockSetting(chemistry, table, request.coldestCelsius, totalOf(filling.map((w) => w.ions)));
  const can = items.length === 0 ? null : cloudingOf([...items.map((i) => i.brings), ...waters], chemistry);
  const base = {
    ...emptyResult(request),
    fill: fill.says,
    apart,
    can: can && { pH: can.pH, precipitation: can.minerals },
  };
  if (stocked.length === 0) return { ...base, why: [request.remark ?? NOTHING], cautions: [] };

  const tanksAllowed = request.tanks === null ? ([1, 2] as const) : ([request.tanks] as const);
  const counts = stocked.length === 1 ? ([1] as const) : tanksAllowed;
  const { splits, exact } = splitsOf(stocked, counts);
  const best = splits.find((split) => splitHolds(split, request.ratio, setting));
  const strongest = ([1, 2] as const)
    .filter((count) => count === 1 || stocked.length > 1)
    .map((count) => largestLine(count, stocked, setting));
  const told = {
    ...base,
    largest: strongest,
    notes: notesOf({ request, exact, stocked, can, largest: strongest, made: best !== undefined }),
    cautions: cautionsFor(
      items.map((item) => item.product),
      request.feed?.plants ?? '',
    ),
  };
  if (!best) {
    const nearest = fewestBroken(splits, request.ratio, setting);
    return { ...told, status: 'too strong', why: broken(nearest, request.ratio, setting) };
  }
  const tanks = best.map((tank, i) =>
    tankSheet({
      name: best.length === 1 ? 'stock' : 'AB'.charAt(i),
      items: items.filter((item) => tank.includes(item)),
      request,
      fill: fill.says,
      clouding: cloudingOfTank(tank, filling, request.ratio, setting),
      limits: tankLimits(tank, request.ratio, setting),
      tanks: best.length,
    }),
  );
  const lasts = lastsOf(request);
  return {
    ...told,
    status: 'made',
    tanks,
    use: useOf(tanks, apart, request),
    lasts,
    keeping: keepingOf(tanks, lasts, request),
    jarTest: JAR_TEST,
  };
}

/** Hard water throws out lime in a strong calcium stock, so such bottles are filled with pure water; mg/L as CaCO3. */
const HARD = 50;

function fillOf(waters: ConcentrateRequest['waters']): { own: boolean; says: string } {
  const alkalinity = waters.reduce((sum, { water, share }) => sum + share * water.alkalinity, 0);
  if (alkalinity > HARD) return { own: false, says: 'rain or purified water, not the hard water of the can' };
  return { own: true, says: waters.map(({ water }) => water.name).join(' and ') };
}

const NOTHING = 'There is nothing to dissolve: the feed asks for no product that can stand in a stock bottle.';

/** Everything that is known before a single bottle has been judged. */
function emptyResult(request: ConcentrateRequest): ConcentrateResult {
  return {
    schema: 'velamen.concentrate/1',
    status: 'nothing to dissolve',
    feed: request.feed,
    recipe: request.recipe,
    ratio: request.ratio,
    dosePerLitre: 1000 / request.ratio,
    jugMillilitres: request.jugMillilitres,
    coldestCelsius: request.coldestCelsius,
    fill: '',
    tanks: [],
    apart: [],
    can: null,
    largest: [],
    why: [],
    use: [],
    lasts: null,
    keeping: [],
    jarTest: [],
    notes: [],
    cautions: [],
  };
}

function largestLine(tanks: 1 | 2, items: readonly StockItem[], setting: StockSetting): LargestLine {
  const { factor, limitedBy } = largest(splitsOf(items, [tanks]).splits, setting);
  const ratio =
    factor === null
      ? null
      : Math.min(STRONGEST, factor >= 10 ? Math.floor(factor + 1e-9) : Math.floor(10 * factor + 1e-9) / 10);
  return { tanks, ratio, dosePerLitre: ratio === null ? null : 1000 / ratio, limitedBy };
}

/** The split that breaks the fewest limits, so that the reason given is the real one. */
function fewestBroken(splits: readonly Split[], factor: number, setting: StockSetting): Split {
  let [best, least] = [splits[0]!, Number.POSITIVE_INFINITY];
  for (const split of splits.slice(0, 64)) {
    const count = broken(split, factor, setting).length;
    if (count < least) [best, least] = [split, count];
  }
  return best;
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
