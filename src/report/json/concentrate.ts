import type { ConcentrateResult, LargestLine, StocksMade, TankSheet } from '../../stock/concentrate-result.js';
import { formatNumber } from '../../units/format.js';
import { commandLine, type Typed } from '../command-line.js';
import type { ConcentrateJson } from '../concentrate-shapes.js';
import { JAR_TEST, keepingSays, tankLabel, tankSteps, useSays } from '../says/stock-bottles.js';
import { careJson, cloudingJson } from './mix.js';
import { apartSays, fillingSays, remarkSays, stockLimitsSay, stockNoteSays } from '../says/stock-limits.js';

/** What `concentrate --json` prints; a result that could not be made has empty lists there. */
export function concentrateJson(result: ConcentrateResult, typed: Typed | null = null): ConcentrateJson {
  const made = result.status === 'made' ? result : null;
  const judged = result.status === 'nothing to dissolve' ? null : result;
  return {
    schema: 'velamen.concentrate/1',
    status: result.status,
    feed: result.feed,
    recipe: result.recipe,
    ratio: result.ratio,
    ratioBy: result.ratioBy,
    holds: holdsJson(result, typed),
    dosePerLitre: 1000 / result.ratio,
    ...(result.shares === undefined
      ? {}
      : {
          shares: result.shares.map(({ feed, parts: { mix, water, share } }) => ({
            feed,
            mix,
            water,
            dosePerLitre: (1000 * share) / result.ratio,
          })),
        }),
    jugMillilitres: result.jugMillilitres,
    coldestCelsius: result.coldestCelsius,
    fill: fillingSays(result.fill),
    tanks: made ? made.tanks.map((tank) => tankJson(tank, made)) : [],
    apart: result.apart.map((item) => ({ ...item, why: apartSays(item.why) })),
    can: result.can && { pH: result.can.pH, precipitation: result.can.precipitation.map(cloudingJson) },
    largest: judged ? judged.largest.map(largestJson) : [],
    why: whySays(result),
    use: made ? useSays(made) : [],
    lasts: made ? made.lasts : null,
    keeping: made ? keepingSays(made) : [],
    jarTest: made ? [...JAR_TEST] : [],
    notes: judged ? judged.notes.map(stockNoteSays) : [],
    ...careJson(judged?.cautions ?? []),
  };
}

/** The strongest that holds where the ratio asked does not, as a command. */
function holdsJson(result: ConcentrateResult, typed: Typed | null): ConcentrateJson['holds'] {
  if (result.status !== 'too strong' || result.holds === null) return null;
  const ratio = result.holds;
  const dose = 1000 / ratio;
  const change: Record<string, string> =
    typed?.dose === undefined ? { ratio: `1:${formatNumber(ratio, 3)}` } : { dose: `${formatNumber(dose, 3)} mL/L` };
  const isOne = result.shares !== undefined || result.recipe !== null;
  const command = commandLine(typed, isOne ? null : (result.feed?.name ?? null), change, 'concentrate');
  return { ratio, dosePerLitre: dose, command };
}

function whySays(result: ConcentrateResult): string[] {
  switch (result.status) {
    case 'made':
      return [];
    case 'too strong':
      return stockLimitsSay(result.violations);
    case 'nothing to dissolve':
      return [result.remark === null ? NOTHING : remarkSays(result.remark)];
    default:
      return result satisfies never;
  }
}

const NOTHING = 'There is nothing to dissolve: the feed asks for no product that can stand in a stock bottle.';

function tankJson(tank: TankSheet, made: StocksMade): ConcentrateJson['tanks'][number] {
  const { name, items, pH, fullest, precipitation, keepsWeeks } = tank;
  return {
    name,
    items,
    pH,
    fullest,
    precipitation: precipitation.map(cloudingJson),
    steps: tankSteps(tank, made),
    hazards: tank.hazards,
    label: tankLabel(tank, made),
    keepsWeeks,
  };
}

const largestJson = ({ tanks, ratio, limitedBy }: LargestLine): ConcentrateJson['largest'][number] => ({
  tanks,
  ratio,
  dosePerLitre: ratio === null ? null : 1000 / ratio,
  limitedBy: stockLimitsSay(limitedBy),
});
