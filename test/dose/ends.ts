import type { Measured, Nutrient } from '../../src/chemistry/nutrients.js';
import type { Amounts } from '../../src/can/mix-amounts.js';
import { readOut } from '../../src/feed/readout.js';
import { type FeedRequest, linearRules } from '../../src/feed/request.js';

/** An end of a band or a rule: Σ of(item) · g or mL per litre + water ≤ most. */
export interface End {
  name: string;
  of: (shelf: number) => number;
  water: number;
  most: number;
  /** The limit's own number, without tolerance. */
  bound: number;
}

/** Each end of a band and each rule as a sum that must not exceed `most`, with the tolerance of the reading (1e-6 of its size). */
export function endsOf(request: FeedRequest, { waters }: Amounts): End[] {
  const side = (nutrient: Measured, end: 'low' | 'high') => (shelf: number) => {
    const { composition, ions } = request.shelf[shelf]!;
    return nutrient === 'alkalinity' ? MG_PER_MEQ * ions.value.alkalinity : composition.content[nutrient][end];
  };
  const bare = readOut({ products: request.shelf.map(() => 0), waters }, request);
  const inWater = new Map<Measured, number>(bare.elements.map((line) => [line.element, line.mgPerLitre]));
  inWater.set(
    'alkalinity',
    waters.reduce((sum, share, i) => sum + share * request.waters[i]!.alkalinity, 0),
  );
  const bands = bare.elements.flatMap(({ element, mgPerLitre, min, max }) => [
    ...(max === null
      ? []
      : [
          {
            name: `${element} max`,
            of: side(element, 'high'),
            water: mgPerLitre,
            most: max * (1 + 1e-6) + 1e-12,
            bound: max,
          },
        ]),
    ...(min === null
      ? []
      : [
          {
            name: `${element} min`,
            of: (i: number) => -side(element, 'low')(i),
            water: -mgPerLitre,
            most: -min * (1 - 1e-6),
            bound: min,
          },
        ]),
  ]);
  const rules = linearRules(request).flatMap((rule) => {
    const terms = Object.entries(rule.terms) as [Measured, number][];
    const of = (sign: 1 | -1) => (shelf: number) =>
      terms.reduce((sum, [n, weight]) => sum + sign * weight * side(n, sign * weight > 0 ? 'high' : 'low')(shelf), 0);
    const water = terms.reduce((sum, [n, weight]) => sum + weight * (inWater.get(n) ?? 0), 0);
    const slip = 2e-6 * Math.max(Math.abs(rule.upper ?? rule.lower ?? 0), sizeAtMost(terms, request));
    return [
      ...(rule.upper === undefined
        ? []
        : [{ name: rule.text, of: of(1), water, most: rule.upper + slip, bound: rule.upper }]),
      ...(rule.lower === undefined
        ? []
        : [{ name: rule.text, of: of(-1), water: -water, most: -rule.lower + slip, bound: rule.lower }]),
    ];
  });
  return [...bands, ...rules];
}

/**
 * What a rule's terms come to at most in any mix that keeps the bands. A rule is judged relative to the size of its terms, which a partial
 * choice does not know yet; with the largest size a little more is let through, never less, and then read out.
 */
function sizeAtMost(terms: readonly [Measured, number][], { programme, rules }: FeedRequest): number {
  const alone = (nutrient: Measured): number[] =>
    linearRules({ programme, rules }).flatMap(({ terms: own, upper }) => {
      const weight = own[nutrient];
      return upper !== undefined && weight !== undefined && weight > 0 && Object.keys(own).length === 1
        ? [upper / weight]
        : [];
    });
  const most = (nutrient: Measured): number => {
    if (nutrient === 'alkalinity') return Math.min(ANY, ...alone(nutrient));
    const whole: Nutrient = nutrient.endsWith('-N') ? 'N' : nutrient;
    return Math.min(programme.bands[nutrient]?.max ?? ANY, programme.bands[whole]?.max ?? ANY, ...alone(nutrient));
  };
  return terms.reduce((sum, [nutrient, weight]) => sum + Math.abs(weight) * most(nutrient), 0);
}

/** mg of CaCO3 that a meq of alkalinity is. */
const MG_PER_MEQ = 50.04;

/** mg/L: no feed under any EC cap holds more of one element. */
const ANY = 10_000;
