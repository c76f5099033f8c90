import { type MicroSiemensPerCm, microSiemensPerCm } from '../../units/index.js';
import { conductivityOf, type IonPart, ionPartsOf } from './conductivity.js';
import { type Saturation, saturationOf } from './saturation.js';
import { speciate } from './speciation.js';
import { constantsAt, SPECIES } from './species.js';
import { type SolutionIons, type SolutionOptions, totalsOf } from './totals.js';
import { isObject, refuseUnlike } from '../../wrong-type.js';

export interface SolutionChemistry {
  /** conductivity at 25 °C, µS/cm: what a temperature-compensated meter aims at */
  ec25: MicroSiemensPerCm;
  /** conductivity at the temperature asked, µS/cm */
  ec: MicroSiemensPerCm;
  pH: number;
  /** mol/kg of water, ion pairs taken out */
  ionicStrength: number;
  saturation: Saturation;
  /** cations less anions in the analysis, meq/L, where an alkalinity was given; it does not move the pH */
  chargeError: number;
  /** potassium hydroxide (+) or nitric acid (−) that the fixed pH takes, mmol/L; 0 without a fixed pH */
  titrant: number;
  /** mmol/L of each dissolved species */
  species: Record<string, number>;
}

/**
 * Equilibrium of a feed or stock: conductivity in µS/cm, pH, ionic strength and saturation indices of gypsum, brushite, calcite and
 * struvite (null where an ingredient is absent). Ions in mmol/L, `HCO3` as alkalinity in meq/L. Nothing precipitates. Without an
 * alkalinity the ions alone settle the pH, as for salts in pure water. Any amounts give finite figures; below 0 counts as none.
 *
 * Cations that no anion balances (and no `HCO3` explains) came with hydroxide or with carbonate: the ions cannot tell which. Open to air
 * both end as bicarbonate, so it makes no difference. Closed, in a feed they count as carbonate beyond what makes HPO4 of the phosphate,
 * an alkali by itself as hydroxide; `carbonate` in mmol/L (0 for none) says otherwise.
 *
 * Constants and their sources: catalog/aqueous.json.
 */
export function solutionChemistry(ions: SolutionIons, options: SolutionOptions = {}): SolutionChemistry {
  if (!isObject(ions) || !isObject(options)) refuseUnlike({ ions, options }, { ions: 'object', options: 'object' });
  const celsius = clampTemperature(options.temperatureC);
  const at = solve(ions, options, celsius);
  const warm = celsius === 25 ? at : solve(ions, options, 25);
  const mmolPerLitre = 1000 * at.waterKgPerLitre;
  return {
    ec25: warm.ec,
    ec: at.ec,
    pH: at.found.pH,
    ionicStrength: at.found.ionicStrength,
    saturation: saturationOf(at.found, at.constants),
    chargeError: at.chargeError,
    titrant: at.found.titrant * mmolPerLitre,
    species: Object.fromEntries(SPECIES.map(({ id }, i) => [id, at.found.molality[i]! * mmolPerLitre])),
  };
}

/** The conductivity at 25 °C of the same solution, ion by ion. */
export function ionParts(ions: SolutionIons, options: SolutionOptions = {}): IonPart[] {
  const { found, waterKgPerLitre, constants } = solve(ions, options, 25);
  return ionPartsOf(found, waterKgPerLitre, constants);
}

function solve(ions: SolutionIons, options: SolutionOptions, celsius: number) {
  const constants = constantsAt(celsius);
  const { totals, waterKgPerLitre, chargeError } = totalsOf(ions, options, constants);
  const found = speciate(totals, constants);
  return {
    constants,
    waterKgPerLitre,
    chargeError,
    found,
    ec: microSiemensPerCm(conductivityOf(found, waterKgPerLitre, constants)),
  };
}

function clampTemperature(celsius = 25): number {
  return Number.isFinite(celsius) ? Math.min(50, Math.max(0, celsius)) : 25;
}
