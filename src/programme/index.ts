/** The room's door. */
export { parseRules } from './parse-rule.js';
export { type Band, type Grounds, MEDIA, type Medium, PHASES, type Phase, type Programme } from './programme.js';
export { resolveProgramme } from './resolve.js';
export type { EcRule, LinearRule, Rule, RuleOrigin } from './rule.js';
export { atStrength, type Strength, strengthText } from './strength.js';
export type { BandRow, FactorRow, PlantRow, ProgrammeTables, RuleRow } from './tables.js';
