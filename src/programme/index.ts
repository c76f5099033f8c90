/** The room's door. */
export { type ReadRules, parseRules } from './parse-rule.js';
export { type Band, MEDIA, type Medium, PHASES, type Phase, type Programme } from './programme.js';
export { resolveProgramme } from './resolve.js';
export type { Rule } from './rule.js';
export { atStrength, type Strength, strengthText } from './strength.js';
export type { BandRow, FactorRow, PlantRow, ProgrammeTables, RuleRow } from './tables.js';
