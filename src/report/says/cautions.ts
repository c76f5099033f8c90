import type { Caution } from '../../can/cautions.js';

/** A caution as a grower reads it. */
export function cautionSays(caution: Caution): string {
  switch (caution.code) {
    case 'label-first':
      return 'The label comes first: where it asks for less, or for gloves and goggles, do as it says.';
    case 'acid':
      return `${ids(caution.items)}: an acid. Pour acid into water, never water into acid; goggles and gloves.`;
    case 'alkali':
      return `${ids(caution.items)}: strongly alkaline. Goggles and gloves; stir it into the full can first, before anything else.`;
    case 'oxidiser':
      return `${ids(caution.items)}: holds nitrate, an oxidiser (class 5.1 as a pure salt). Keep dry, cool and closed, away from fuel, paper and other organic matter; never dry damp powder with heat.`;
    case 'double-salt':
      return `${ids(caution.items)}: calcium ammonium nitrate double salt damages eyes. Goggles; keep it closed, it draws water.`;
    case 'ammonium':
      return `${ids(caution.items)}: holds or may hold ammonium. Never together with lime, alkali or bleach: poisonous gas.`;
    case 'boron-or-copper':
      return `${ids(caution.items)}: boron or copper, where a little too much harms. Weigh it, or measure it from a stock solution; never by eye.`;
    case 'alkali-beside-ammonium':
      return `${ids(caution.alkalis)} with ${ids(caution.ammonium)}: alkali sets ammonia free. Never bring the concentrates together.`;
    case 'copper-in-bromeliads':
      return 'Bromeliads are poisoned by copper: keep this feed out of the cup and try it on one plant first.';
    case 'carnivorous-roots':
      return 'Carnivorous plants are harmed by feed at the root: pure water in the tray, feed on the leaf only, if at all.';
    case 'start-weak':
      return 'Start weak, on a few plants, and watch them for two weeks.';
    case 'out-of-reach':
      return 'Out of reach of children and pets; never in a drink or food container; name and date every bottle.';
    case 'no-food-crops':
      return 'Not for food crops unless the label says so.';
    case 'runoff':
      return 'Keep runoff out of drains, ponds and streams, as local rules ask. Local codes and licensed practice override this sheet.';
    default:
      return caution satisfies never;
  }
}

const ids = (items: readonly string[]): string => items.join(', ');
