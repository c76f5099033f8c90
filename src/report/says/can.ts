import { atDoor } from '../../door.js';
import type { AcidDose, AlkalinityLine } from '../../can/alkalinity.js';
import type { AmmoniaLine } from '../../can/can-lines.js';
import type { IronLine, IronSource } from '../../can/iron.js';
import { CAN_LIMITS } from '../../can/compiled-limits.js';
import { formatFixed } from '../../units/index.js';
import { figure, percent } from '../figures.js';

/** `Alkalinity 148 mg/L CaCO3, more than the 100 that peat bears. To bring it to 60: …`. */
export function alkalinitySays({ mgCaCO3PerLitre, medium, aim, most, evidence, over }: AlkalinityLine): string {
  const found = `Alkalinity of the can ${formatFixed(mgCaCO3PerLitre, 0)} mg/L CaCO3 (water, alkalis and acids together)`;
  const borne = `${most} that ${medium} bears (${evidence})`;
  if (over === null) return `${found}, within the ${borne}.`;
  const water =
    over.pureShare === null
      ? 'no pure water does it alone, as the products bring too much: leave the alkali out'
      : `change ${percent(Math.ceil(over.pureShare * 100 - 1e-6) / 100)} of its water for rain, distilled or reverse osmosis water`;
  return `${found}, more than the ${borne}. To bring it to ${aim}, ${water}; or acid (${formatFixed(over.meq, 2)} meq per litre): ${over.acids.map(doseSays).join('; ')}. Acids burn: goggles and gloves, acid into the water first and never water into acid, by its label and where you may buy it.`;
}

function doseSays({ name, unit, perLitre, nitrogen, phosphorus, beyond }: AcidDose): string {
  const brings = [
    nitrogen > 0 ? `${figure(nitrogen)} mg/L N` : '',
    phosphorus > 0 ? `${figure(phosphorus)} mg/L P` : '',
  ];
  const with_ = brings.filter(Boolean).join(' and ');
  const dose = `${figure(perLitre)} ${unit}/L of ${name}${with_ === '' ? '' : ` (brings ${with_}, to be counted in the feed)`}`;
  return beyond === null
    ? dose
    : `${dose}, which is more than the ${figure(beyond)} ${unit}/L of its ceiling, so rather pure water`;
}

/** `Free ammonia …`, with the temperature and pH that make it so. */
export function ammoniaSays({ mgPerLitre, standing, pH, celsius, most, evidence }: AmmoniaLine): string {
  return `Free ammonia: ${figure(mgPerLitre)} mg/L of nitrogen as NH3 as mixed (pH ${formatFixed(pH, 1)}, ${figure(celsius)} °C), ${figure(standing)} after standing in air; above ${figure(most)} it may hurt roots (${evidence}). Warmth and alkali make more of it: leave the alkali or the silicate out of a feed with ammonium, or give them on different days.`;
}

/** What of the iron holds, source by source. */
export function ironSays({ mgPerLitre, held, pH, sources }: IronLine): string {
  const lost = sources.filter(({ holds }) => !holds).map((source) => `${source.name} (${rangeSays(source)})`);
  if (lost.length === 0) return `Iron ${figure(mgPerLitre)} mg/L, all of it held at pH ${formatFixed(pH, 1)} as mixed.`;
  return `Iron: of ${figure(mgPerLitre)} mg/L, ${figure(held)} counts at pH ${formatFixed(pH, 1)} as mixed. It is not held in ${lost.join(', ')}. ${helps(pH)}`;
}

/** The catalog's chelates of iron, by their id there, and the pH to which each holds: the next that does is named. */
function helps(pH: number): string {
  const holding = IRONS.find(({ to }) => pH <= to - IN_HAND);
  const other = holding
    ? `Another chelate holds there: ${atDoor({ typed: `with \`--with ${holding.id}\` it is counted in`, page: `put ${holding.id} on the shelf` })} (${holding.agent}, to pH ${formatFixed(holding.to, 1)}). Or`
    : 'No chelate that we know holds there:';
  return `${other} bring the pH down.`;
}

/** So much below its end a chelate is named, as a feed moves its own pH. */
const IN_HAND = 0.2;
const IRONS = ['DTPA', 'EDDHA'].flatMap((agent) =>
  CAN_LIMITS.filter(({ quantity, of }) => quantity === 'chelate' && of === agent).map(({ most }) => {
    return { agent, id: `iron-${agent.toLowerCase()}`, to: most };
  }),
);

function rangeSays({ chelate, to }: IronSource): string {
  if (chelate === 'none') return `no chelate, to pH ${formatFixed(to, 1)}`;
  return `${chelate ?? 'its label names no chelate, so counted as none'}, to pH ${formatFixed(to, 1)}`;
}
