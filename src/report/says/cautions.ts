import { alkalinitySays, ammoniaSays, ironSays } from './can.js';
import type { Caution, ItemHazard } from '../../can/cautions.js';
import { statementOf } from '../../can/hazards.js';
import { figure } from '../figures.js';

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
      return `Oxidiser, feeds fire: ${hazards(caution.hazards)}. Keep dry, cool and closed, away from fuel, paper and other organic matter; never dry damp powder with heat.`;
    case 'corrosive':
      return `Corrosive: ${hazards(caution.hazards)}. Goggles and gloves; a splash is rinsed long with water.`;
    case 'eye-damage':
      return `Damages eyes: ${hazards(caution.hazards)}. Goggles; rinse long with water and see a doctor.`;
    case 'reproduction':
      return `Toxic to reproduction (may harm fertility or an unborn child): ${hazards(caution.hazards)}. Gloves, no dust; not in the hands of those who are or may be pregnant.`;
    case 'long-term':
      return `Harm that stays or comes later (organs, allergy, cancer): ${hazards(caution.hazards)}. Gloves; breathe no dust.`;
    case 'harmful':
      return `Harmful if swallowed, breathed in, on the skin or to water life, or irritating: ${hazards(caution.hazards)}. Wash your hands afterwards.`;
    case 'water-life':
      return `Poison to water life: ${hazards(caution.hazards)}. Neither it nor what is left over into drains.`;
    case 'restricted-sale':
      return `${ids(caution.items)}: sale to private persons is restricted in the EU (Regulation 2019/1148) and elsewhere; local law first.`;
    case 'leaf-burn':
      return `Not on leaves above ${caution.limits.map(({ item, perLitre, form }) => `${figure(perLitre)} ${form === 'powder' ? 'g' : 'mL'}/L of ${item}`).join(', ')}: its sodium, chloride or boron burns them.`;
    case 'ammonium':
      return `${ids(caution.items)}: holds or may hold ammonium. Never together with lime, alkali or bleach: poisonous gas.`;
    case 'boron-or-copper':
      return `${ids(caution.items)}: boron or copper, where a little too much harms. Never more than the measure given, and that level.`;
    case 'urea-as-nitrogen':
      return `${ids(caution.items)}: much of the nitrogen is urea, which no pen shows. Microbes turn it into ammonium, slowly where it is cold; whether orchid roots do as well with it as with nitrate is contested.`;
    case 'alkali-beside-ammonium':
      return `${ids(caution.alkalis)} with ${ids(caution.ammonium)}: alkali sets ammonia free, a poisonous gas. Never bring the powders or concentrates together: only in the full can, one after the other. No bleach or lime either.`;
    case 'free-ammonia':
      return ammoniaSays(caution);
    case 'iron-not-held':
      return ironSays(caution);
    case 'alkalinity':
      return alkalinitySays(caution);
    case 'copper-in-bromeliads':
      return 'Bromeliads are poisoned by copper: keep this feed out of the cup and try it on one plant first.';
    case 'urea-where-little-turns-it':
      return `Urea, or nitrogen whose form is not declared (${caution.items.join(', ')}): in cool roots, moss, fresh clay or on a mount little turns it over, so give plain water between feeds and do not let it build up. Whether orchid roots themselves mind it is contested.`;
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

/** What a solution is classed as, by the most that its products may hold. */
export function dilutionHazardsSay(codes: readonly string[]): string {
  if (codes.length === 0) return 'As dissolved: no hazard statement of the GHS applies, as far as its labels tell.';
  return `As dissolved, at most: ${codes.map((code) => `${code} ${statementOf(code)?.statement ?? ''}`).join('. ')}.`;
}

/** `a (H272), b (H272)`, then those that may have it by the salts they name. */
function hazards(lines: readonly ItemHazard[]): string {
  const said = (may: boolean): string =>
    lines
      .filter((line) => line.may === may)
      .map(({ item, codes }) => `${item} (${codes.join(', ')})`)
      .join(', ');
  const [sure, may] = [said(false), said(true)];
  const perhaps = may === '' ? [] : [`perhaps ${may}, by the salts in it: its label decides`];
  return [...(sure === '' ? [] : [sure]), ...perhaps].join('; ');
}

const ids = (items: readonly string[]): string => items.join(', ');
