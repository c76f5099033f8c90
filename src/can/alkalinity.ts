import { CACO3_PER_MEQ } from '../chemistry/acidity.js';
import type { Acid } from '../catalog/compile.js';
import { ACIDS, CAN_LIMITS } from './compiled-limits.js';

/** Alkalinity of a feed solution against what its medium bears: the water's, and what alkalis of the mix add and its acids take; mg/L CaCO3. */
export interface AlkalinityLine {
  mgCaCO3PerLitre: number;
  medium: string;
  /** What it is brought to where it is over, and the most that is borne. */
  aim: number;
  most: number;
  source: string;
  evidence: string;
  /** null where the medium bears it. */
  over: AlkalinityOver | null;
}

/** Two ways to bring an alkalinity to the aim of its medium. */
export interface AlkalinityOver {
  /** meq of acid per litre. */
  meq: number;
  acids: AcidDose[];
  /** Share of its water to be changed for pure water, 0…1; null where what the products bring is too much by itself. */
  pureShare: number | null;
}

export interface AcidDose extends Pick<Acid, 'id' | 'name' | 'unit'> {
  /** g or mL per litre of feed. */
  perLitre: number;
  /** mg/L of nitrogen or phosphorus that come with it. */
  nitrogen: number;
  phosphorus: number;
  /** The most that the catalog allows, where this is more. */
  beyond: number | null;
}

/**
 * @param alkalinity meq/L of the feed solution
 * @param ofWater meq/L that its water brings
 * @param medium of the catalog; null where nobody says what the plants stand in
 */
export function alkalinityOf(alkalinity: number, ofWater: number, medium: string | null): AlkalinityLine | null {
  const limit = CAN_LIMITS.find(({ quantity, of }) => quantity === 'alkalinity' && of === medium);
  if (limit === undefined || medium === null) return null;
  const { most, source, evidence } = limit;
  const aim = limit.aim ?? most;
  const meq = alkalinity - aim / CACO3_PER_MEQ;
  const over = alkalinity * CACO3_PER_MEQ > most;
  return {
    mgCaCO3PerLitre: alkalinity * CACO3_PER_MEQ,
    medium,
    aim,
    most,
    source,
    evidence,
    over: over
      ? { meq, acids: ACIDS.map((acid) => doseOf(acid, meq)), pureShare: meq <= ofWater ? meq / ofWater : null }
      : null,
  };
}

function doseOf({ id, name, unit, meq: each, nitrogen, phosphorus, most }: Acid, meq: number): AcidDose {
  const perLitre = meq / each;
  return {
    id,
    name,
    unit,
    perLitre,
    nitrogen: perLitre * nitrogen,
    phosphorus: perLitre * phosphorus,
    beyond: most !== null && perLitre > most ? most : null,
  };
}
