import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { type Checked, checked, nearest, type Problem, problem, type Where } from '../problem.js';
import { scaleBy } from '../units/index.js';
import { parseRules } from './parse-rule.js';
import type { Band, Grounds, Medium, Phase, Programme } from './programme.js';
import type { LinearRule, Rule, RuleOrigin } from './rule.js';
import type { BandRow, FactorRow, ProgrammeTables, RuleRow, Sourced } from './tables.js';

/**
 * The programme of a plant group in a medium and phase: the group's bands (or the defaults), times every matching factor,
 * with every matching rule. Refused when the group is unknown or the medium makes no sense for it.
 */
export function resolveProgramme(
  tables: ProgrammeTables,
  plants: string,
  medium: Medium,
  phase: Phase,
  where: Where = {},
): Checked<Programme> {
  const known = RESOLVED.get(tables) ?? new Map<string, Checked<Programme>>();
  RESOLVED.set(tables, known);
  const key = `${plants} ${medium} ${phase}`;
  const before = known.get(key);
  if (before) return before;
  const found = resolved(tables, plants, medium, phase, where);
  // what is told of a place in a file is of that file alone
  if (found.ok && found.warnings.length === 0) known.set(key, found);
  return found;
}

/** Tables are never changed; a season and a slider ask for the same programme again and again. */
const RESOLVED = new WeakMap<ProgrammeTables, Map<string, Checked<Programme>>>();

function resolved(
  tables: ProgrammeTables,
  plants: string,
  medium: Medium,
  phase: Phase,
  where: Where,
): Checked<Programme> {
  const unsuited = unsuitedProblem(tables, plants, medium, where);
  if (unsuited) return { ok: false, problems: [unsuited] };
  const bandRows = bandsFor(tables, plants);
  const factors = tables.factors.filter(
    (row) => (row.plants === '*' || row.plants === plants) && matches(row, medium, phase),
  );
  const bands: Programme['bands'] = Object.fromEntries(
    bandRows.map((row) => [row.nutrient, timesBand(row, factorFor(factors, row.nutrient))]),
  );
  const { rules, rows, problems } = rulesFor(tables, plants, medium, phase, where);
  const evidence = [
    ...bandRows.map((row) => evidenceOf({ kind: 'band', nutrient: row.nutrient }, row)),
    ...factors.map((row) => evidenceOf(factorOf(row), row)),
    ...rows.map((row) => evidenceOf({ kind: 'rule', text: row.rule }, row)),
  ];
  const none = factors.find((row) => row.rest !== undefined);
  const unfed = none && { ...none.rest!, evidence: none.evidence, source: none.source, notes: none.notes };
  return checked(
    { plants, medium, phase, bands, rules: tightest(rules), evidence, ...(unfed ? { unfed } : {}) },
    problems,
  );
}

function unsuitedProblem(tables: ProgrammeTables, plants: string, medium: Medium, where: Where): Problem | undefined {
  const known = tables.plants.map((row) => row.id);
  const group = tables.plants.find((row) => row.id === plants);
  if (!group) {
    const guesses = nearest(plants, known);
    return problem(
      'programme-unknown',
      where,
      `plants "${plants}"`,
      'a plant group of the catalog',
      guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Known: ${known.join(', ')}.`,
    );
  }
  if (group.media.includes(medium)) return undefined;
  return problem(
    'programme-medium',
    where,
    `${plants} in ${medium}`,
    `a medium that suits ${plants}`,
    `There are programmes for ${plants} in ${group.media.join(', ')}.`,
  );
}

/** The group's own band of each nutrient, or the default. */
function bandsFor({ bands }: ProgrammeTables, plants: string): BandRow[] {
  const of = (group: string, nutrient: Nutrient): BandRow | undefined =>
    bands.find((row) => row.plants === group && row.nutrient === nutrient);
  const nitrogen = of(plants, 'N')?.aim ?? of('*', 'N')?.aim ?? 100;
  return NUTRIENTS.flatMap((nutrient) => {
    const row = of(plants, nutrient) ?? of('*', nutrient);
    if (row === undefined) return [];
    return row.perNitrogen ? { ...row, ...timesBand(row, nitrogen / 100) } : row;
  });
}

/** Every matching rule with the row it is from. */
function rulesFor(tables: ProgrammeTables, plants: string, medium: Medium, phase: Phase, where: Where) {
  const rules: Rule[] = [];
  const rows: RuleRow[] = [];
  const problems: Problem[] = [];
  for (const row of tables.rules.filter(
    (r) => (r.plants === '*' || r.plants === plants) && matches(r, medium, phase),
  )) {
    const read = parseRules([row.rule], ruleOrigin(row), where);
    if (!read.ok) {
      problems.push(...read.problems);
      continue;
    }
    rules.push(
      ...read.value.map((rule) => (row.aimed && rule.kind === 'linear' ? { ...rule, aimed: true as const } : rule)),
    );
    rows.push(row);
  }
  return { rules, rows, problems };
}

const evidenceOf = (of: Grounds['of'], { evidence, refs, source, notes }: Sourced): Grounds => ({
  of,
  evidence,
  refs,
  source,
  notes,
});

const factorOf = ({ factor, nutrient, medium, phase }: FactorRow): Grounds['of'] => ({
  kind: 'factor',
  factor,
  nutrient,
  medium,
  phase,
});

/** A band with each end multiplied. */
export function timesBand(band: Band, factor: number): Band {
  const { min, aim, max } = band;
  return {
    ...(min === undefined ? {} : { min: scaleBy(min, factor) }),
    ...(aim === undefined ? {} : { aim: scaleBy(aim, factor) }),
    ...(max === undefined ? {} : { max: scaleBy(max, factor) }),
  };
}

/** A rule made redundant by a tighter one over the same terms is dropped, so that the report lists what decides. */
function tightest(rules: readonly Rule[]): Rule[] {
  return rules.filter(
    (rule, i) => !rules.some((other, j) => j !== i && sameShape(rule, other) && isTighter(other, rule, j < i)),
  );
}

function sameShape(a: Rule, b: Rule): boolean {
  if (a.kind === 'ec' || b.kind === 'ec') return a.kind === b.kind;
  const sides = (r: LinearRule): string => `${r.lower === undefined ? '' : 'l'}${r.upper === undefined ? '' : 'u'}`;
  return a.aimed === b.aimed && sides(a) === sides(b) && sides(a).length === 1 && keys(a) === keys(b);
}

const keys = (rule: LinearRule): string => Object.keys(rule.terms).sort().join(' ');

/** For `A ≤ kB` forms: leading term 1, the rest compared; `first` breaks ties. */
function isTighter(a: Rule, b: Rule, first: boolean): boolean {
  if (a.kind === 'ec' || b.kind === 'ec') return a.upper! < b.upper! || (a.upper === b.upper && first);
  const boundA = a.upper ?? -a.lower!;
  const boundB = b.upper ?? -b.lower!;
  const sign = a.upper !== undefined ? 1 : -1;
  const names = Object.keys(a.terms) as Nutrient[];
  const atLeast = names.every((n) => sign * a.terms[n]! >= sign * b.terms[n]!) && boundA <= boundB;
  const same = names.every((n) => a.terms[n] === b.terms[n]) && boundA === boundB;
  return atLeast && (!same || first);
}

/** All factors on a nutrient, of those that match. */
function factorFor(factors: readonly FactorRow[], nutrient: Nutrient): number {
  return factors
    .filter((row) => row.nutrient === '*' || row.nutrient === nutrient)
    .reduce((product, row) => product * row.factor, 1);
}

function matches(row: { medium: string; phase: string }, medium: Medium, phase: Phase): boolean {
  return (row.medium === '*' || row.medium === medium) && (row.phase === '*' || row.phase === phase);
}

function ruleOrigin({ plants, medium, phase }: RuleRow): RuleOrigin {
  return {
    owner: 'programme',
    ...(plants === '*' ? {} : { plants }),
    ...(medium === '*' ? {} : { medium }),
    ...(phase === '*' ? {} : { phase }),
  };
}
