import type { Nutrient } from '../chemistry/nutrients.js';
import type { MgPerLitre } from '../units/index.js';
import type { Medium, Phase } from './programme.js';

/** Every row says where its number comes from and how well that is supported. */
export interface Sourced {
  /** Keys of `catalog/references.csv`. */
  refs: readonly string[];
  source: string;
  evidence: string;
  notes: string;
}

/** A plant group and the media that make sense for it. */
export interface PlantRow extends Sourced {
  id: string;
  name: string;
  synonyms: string[];
  media: Medium[];
}

/** mg/L in the feed solution at full growth strength; plants `*` is the default for groups without a row of their own. */
export interface BandRow extends Sourced {
  plants: string;
  nutrient: Nutrient;
  /** True where the figures are mg in 100 mg of the aim of the group's nitrogen. */
  perNitrogen?: true;
  min?: MgPerLitre;
  aim?: MgPerLitre;
  max?: MgPerLitre;
}

/** A multiplier on min, aim and max of a nutrient (`*`: of all); where several rows match, their factors are multiplied. */
export interface FactorRow extends Sourced {
  plants: string;
  medium: Medium | '*';
  phase: Phase | '*';
  nutrient: Nutrient | '*';
  factor: number;
  /** From when to when nothing is fed, where the factor on all nutrients is 0; both empty for all the year. */
  rest?: { from: string; to: string };
}

/** A rule for the plants, medium and phase of its row; `*` stands for any. */
export interface RuleRow extends Sourced {
  plants: string;
  medium: Medium | '*';
  phase: Phase | '*';
  rule: string;
  /** True where plans hold it near its other aims and it gives way to them. */
  aimed?: true;
}

/** The programme files, read. */
export interface ProgrammeTables {
  plants: PlantRow[];
  bands: BandRow[];
  factors: FactorRow[];
  rules: RuleRow[];
}
