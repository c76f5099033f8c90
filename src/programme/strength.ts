import type { Nutrient } from '../chemistry/nutrients.js';
import { type Checked, problem, type Where } from '../problem.js';
import type { MgPerLitre } from '../units/index.js';
import type { Band, Programme } from './programme.js';
import { timesBand } from './resolve.js';

/** How strong a feed is to be: a share of the programme's full strength, or a total nitrogen in mg/L. */
export type Strength = { kind: 'percent'; percent: number } | { kind: 'nitrogen'; mgPerLitre: MgPerLitre };

/** A programme with every band at the wanted strength, counted in nitrogen. Rules and the EC cap stay as they are. */
export function atStrength(
  programme: Programme,
  strength: Strength,
  where: Where = {},
): Checked<{ programme: Programme; factor: number }> {
  const aim = programme.bands.N?.aim ?? programme.bands.N?.max;
  if (strength.kind === 'nitrogen' && !(aim && aim > 0)) {
    return {
      ok: false,
      problems: [
        problem(
          'strength-nitrogen',
          where,
          `strength N: ${strength.mgPerLitre} mg/L`,
          'a programme with an aim for nitrogen',
          'Give the strength as a percentage instead, for example 80 %.',
        ),
      ],
    };
  }
  const factor = strength.kind === 'percent' ? strength.percent / 100 : strength.mgPerLitre / aim!;
  const bands: Programme['bands'] = Object.fromEntries(
    (Object.entries(programme.bands) as [Nutrient, Band][]).map(([n, full]) => [n, timesBand(full, factor)]),
  );
  return { ok: true, value: { programme: { ...programme, bands }, factor }, warnings: [] };
}

/** `80 %` or `N 90 mg/L`. */
export function strengthText(strength: Strength): string {
  return strength.kind === 'percent' ? `${strength.percent} %` : `N ${strength.mgPerLitre} mg/L`;
}
