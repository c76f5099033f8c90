import { type Checked, problem, type Where } from '../problem.js';
import { type Atoms, FormulaError, type NitrogenForms, readGroup, spelled } from './formula-groups.js';
import { type Nutrient, perNutrient, type PerNutrient } from './nutrients.js';
import { atomicWeight } from './weights.js';

/** One mole of a substance. */
export interface Formula {
  text: string;
  atoms: Atoms;
  nitrogen: NitrogenForms;
  /** The parts between the dots, each with its count. */
  parts: { count: number; atoms: Atoms }[];
  /** g/mol */
  molarMass: number;
}

/**
 * Reads `Ca(NO3)2·4H2O`, `5Ca(NO3)2.NH4NO3.10H2O`, `CO(NH2)2`, `(NH₄)₆Mo₇O₂₄*4H2O`: parts joined by · . * or •, each with an
 * optional count before it. Nitrogen is nitrate in NO3, ammoniacal in NH4 and NH3, urea in CO(NH2)2, and other elsewhere.
 */
export function parseFormula(text: string, where: Where = {}): Checked<Formula> {
  try {
    return { ok: true, value: read(text), warnings: [] };
  } catch (error) {
    if (!(error instanceof FormulaError)) throw error;
    const place = error.at === undefined ? '' : ` at character ${error.at + 1} of "${text}"`;
    return { ok: false, problems: [problem('formula', where, `${error.found}${place}`, error.expected, error.fix)] };
  }
}

/** For formulas written in this program: throws where one cannot be read. */
export function formula(text: string): Formula {
  return read(text);
}

/** mg of each nutrient in one gram of a pure substance. */
export function nutrientsPerGram(substance: Formula): PerNutrient<number> {
  const mgOf = (element: string, moles: number): number => (1000 * moles * atomicWeight(element)) / substance.molarMass;
  return perNutrient((nutrient: Nutrient) => {
    if (nutrient in substance.nitrogen) return mgOf('N', substance.nitrogen[nutrient as keyof NitrogenForms]);
    return mgOf(nutrient, substance.atoms.get(nutrient) ?? 0);
  });
}

function read(text: string): Formula {
  const plain = spelled(text);
  if (plain.trim() === '') throw new FormulaError('nothing', 'a formula', 'Write for example KNO3.');
  if (plain.length > 120)
    throw new FormulaError(`${plain.length} characters`, 'at most 120', 'Write a shorter formula.');
  const atoms: Atoms = new Map();
  const parts: Formula['parts'] = [];
  const nitrogen: NitrogenForms = { 'NO3-N': 0, 'NH4-N': 0, 'urea-N': 0, 'other-N': 0 };
  for (const { count, body, start } of partsOf(plain)) {
    const part = readGroup(body, start);
    parts.push({ count, atoms: part.atoms });
    for (const [element, n] of part.atoms) atoms.set(element, (atoms.get(element) ?? 0) + count * n);
    for (const form of Object.keys(nitrogen) as (keyof NitrogenForms)[]) nitrogen[form] += count * part.nitrogen[form];
  }
  const molarMass = [...atoms].reduce((sum, [element, n]) => sum + n * atomicWeight(element), 0);
  return { text: text.trim(), atoms, nitrogen, parts, molarMass };
}

/** Splits at the dots; a count may be 4, 0.5 or 1/2. */
function partsOf(text: string): { count: number; body: string; start: number }[] {
  const parts: { count: number; body: string; start: number }[] = [];
  const part = /\s*(?:(\d+)\/(\d+)|(\d+(?:\.\d+)?))?\s*([^.\s]*)\s*(?:\.|$)/y;
  while (part.lastIndex < text.length || text.endsWith('.')) {
    const at = part.lastIndex;
    const match = part.exec(text);
    if (!match)
      throw new FormulaError(
        `"${text.slice(at, at + 8)}"`,
        'a part of a formula',
        'Join the parts with a dot, such as MgSO4.7H2O.',
        at,
      );
    const [whole, top, bottom, plainCount, body] = match;
    if (!body)
      throw new FormulaError(
        'an empty part',
        'a formula on both sides of each dot',
        'Write for example MgSO4.7H2O.',
        at,
      );
    const count = top ? Number(top) / Number(bottom) : Number(plainCount ?? 1);
    if (!(count > 0) || !Number.isFinite(count))
      throw new FormulaError(`count "${whole.trim()}"`, 'a count above zero', 'Write for example 7H2O.', at);
    parts.push({ count, body, start: at + whole.indexOf(body) });
    if (part.lastIndex >= text.length && !whole.endsWith('.')) break;
    if (part.lastIndex >= text.length)
      throw new FormulaError(
        'a dot at the end',
        'a formula on both sides of each dot',
        'Leave the last dot out.',
        text.length - 1,
      );
  }
  return parts;
}
