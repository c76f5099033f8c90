import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { type Checked, checked, nearest, type Problem, problem, type Where } from '../problem.js';
import { parseRules } from './parse-rule.js';
import type { Band, Medium, Phase, Programme } from './programme.js';
import type { Rule } from './rule.js';
import type { FactorRow, ProgrammeTables, RuleRow } from './tables.js';

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
  const problems: Problem[] = [];
  const group = tables.plants.find((row) => row.id === plants);
  if (!group) {
    const guesses = nearest(
      plants,
      tables.plants.map((row) => row.id),
    );
    problems.push(
      problem(
        'programme-unknown',
        where,
        `plants "${plants}"`,
        'a plant group of the catalog',
        guesses.length > 0
          ? `Did you mean ${guesses.join(' or ')}?`
          : `Known: ${tables.plants.map((r) => r.id).join(', ')}.`,
      ),
    );
  } else if (!group.media.includes(medium)) {
    problems.push(
      problem(
        'programme-medium',
        where,
        `${plants} in ${medium}`,
        `a medium that suits ${plants}`,
        `There are programmes for ${plants} in ${group.media.join(', ')}.`,
      ),
    );
  }
  if (!group || problems.length > 0) return { ok: false, problems };

  const evidence: string[] = [];
  const note = (text: string, row: { source: string; evidence: string; notes: string }): void => {
    evidence.push(`${text}: ${row.evidence}, ${row.source}${row.notes ? ` — ${row.notes}` : ''}`);
  };
  const bands: Programme['bands'] = {};
  for (const nutrient of NUTRIENTS) {
    const row =
      tables.bands.find((b) => b.plants === plants && b.nutrient === nutrient) ??
      tables.bands.find((b) => b.plants === '*' && b.nutrient === nutrient);
    if (!row) continue;
    bands[nutrient] = timesBand(row, factorFor(tables.factors, medium, phase, nutrient));
    note(nutrient, row);
  }
  for (const row of tables.factors.filter((f) => matches(f, medium, phase))) {
    note(
      `× ${row.factor} on ${row.nutrient === '*' ? 'every element' : row.nutrient} in ${row.medium === '*' ? row.phase : row.medium}`,
      row,
    );
  }

  const rules: Rule[] = [];
  let maxEc: number | undefined;
  for (const row of tables.rules.filter(
    (r) => (r.plants === '*' || r.plants === plants) && matches(r, medium, phase),
  )) {
    const read = parseRules([row.rule], ruleOrigin(row), where);
    if (!read.ok) {
      problems.push(...read.problems);
      continue;
    }
    rules.push(...read.value.rules);
    if (read.value.maxEc !== undefined) maxEc = Math.min(maxEc ?? Number.POSITIVE_INFINITY, read.value.maxEc);
    note(row.rule, row);
  }
  return checked(
    { plants, medium, phase, bands, rules: tightest(rules), ...(maxEc === undefined ? {} : { maxEc }), evidence },
    problems,
  );
}

/** A band with each end multiplied. */
export function timesBand(band: Band, factor: number): Band {
  const scaled: Band = {};
  if (band.min !== undefined) scaled.min = band.min * factor;
  if (band.aim !== undefined) scaled.aim = band.aim * factor;
  if (band.max !== undefined) scaled.max = band.max * factor;
  return scaled;
}

/** A rule made redundant by a tighter one over the same terms is dropped, so that the report lists what decides. */
function tightest(rules: readonly Rule[]): Rule[] {
  return rules.filter(
    (rule, i) => !rules.some((other, j) => j !== i && sameShape(rule, other) && isTighter(other, rule, j < i)),
  );
}

function sameShape(a: Rule, b: Rule): boolean {
  const sides = (r: Rule): string => `${r.lower === undefined ? '' : 'l'}${r.upper === undefined ? '' : 'u'}`;
  return sides(a) === sides(b) && sides(a).length === 1 && keys(a) === keys(b);
}

const keys = (rule: Rule): string => Object.keys(rule.terms).sort().join(' ');

/** For `A ≤ kB` forms: leading term 1, the rest compared; `first` breaks ties. */
function isTighter(a: Rule, b: Rule, first: boolean): boolean {
  const boundA = a.upper ?? -a.lower!;
  const boundB = b.upper ?? -b.lower!;
  const sign = a.upper !== undefined ? 1 : -1;
  const names = Object.keys(a.terms) as Nutrient[];
  const atLeast = names.every((n) => sign * a.terms[n]! >= sign * b.terms[n]!) && boundA <= boundB;
  const same = names.every((n) => a.terms[n] === b.terms[n]) && boundA === boundB;
  return atLeast && (!same || first);
}

function factorFor(factors: readonly FactorRow[], medium: Medium, phase: Phase, nutrient: Nutrient): number {
  return factors
    .filter((f) => matches(f, medium, phase) && (f.nutrient === '*' || f.nutrient === nutrient))
    .reduce((product, f) => product * f.factor, 1);
}

function matches(row: { medium: string; phase: string }, medium: Medium, phase: Phase): boolean {
  return (row.medium === '*' || row.medium === medium) && (row.phase === '*' || row.phase === phase);
}

function ruleOrigin(row: RuleRow): string {
  const parts = [row.plants, row.medium, row.phase].filter((x) => x !== '*');
  return parts.length > 0 ? `programme: ${parts.join(', ')}` : 'programme: all plants';
}
