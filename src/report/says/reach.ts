import { atDoor } from '../../door.js';
import type { Limit } from '../../feed/limits.js';
import type { Decides, ReachLine, ReachResult } from '../../feed/results.js';
import { figure, percent } from '../figures.js';
import { limitSays } from './limits.js';

/** The answer in a clause, and what belongs beside it in a sentence. */
export function reachAnswer(result: ReachResult): { clause: string; beside: string | null } {
  const { status, elements, aimsMiss, farthest } = result;
  if (status === 'open')
    return { clause: 'not proved what this shelf can reach', beside: 'Figures are missing below, or a guess.' };
  if (status === 'apart') return apartAnswer(result);
  const aims = elements.filter((line) => line.aimReachable !== null);
  const out = aims.filter((line) => line.aimReachable === false).map((line) => line.element);
  if (aims.length === 0) return { clause: 'every element can be brought into its band', beside: null };
  if (out.length === aims.length) return { clause: `${outOfReach(out)}, though all limits can be kept`, beside: null };
  const one = aimsMiss !== null && aimsMiss <= 1e-6;
  const beside =
    one || aimsMiss === null || farthest === null
      ? null
      : `In the nearest feed, ${CLOSEST}, ${farthest} is ${percent(aimsMiss)} off its aim, and nothing farther.`;
  const butApart = one ? '' : ', but not all at once';
  if (out.length > 0) return { clause: `${outOfReach(out)}; the rest can be met${butApart}`, beside };
  return { clause: `${one ? 'all aims' : 'each aim'} can be met on this shelf${butApart}`, beside };
}

/** `P, S aims out of reach`. */
const outOfReach = (elements: readonly string[]): string =>
  `${elements.join(', ')} ${elements.length === 1 ? 'aim' : 'aims'} out of reach`;

function apartAnswer(result: ReachResult): { clause: string; beside: string } {
  const beyond = beyondReach(result);
  const clause = 'not all limits can be kept together';
  const contradiction = `${conflictSays(result.conflict)}; ${atDoor({ typed: '`velamen blend`', page: 'the report of this feed' })} tells the ways out.`;
  if (beyond.length > 0) return { clause: `${beyond.join(', ')} out of reach, so ${clause}`, beside: contradiction };
  const alone = result.elements.every((line) => line.reachable)
    ? 'Each element by itself could be brought into its band, with the minima of the others given up; but '
    : '';
  return { clause, beside: `${alone}${contradiction}` };
}

/** `N ≥ 76.5, Cl <= 20 and 2 more contradict each other`. */
function conflictSays(limits: readonly Limit[]): string {
  const shown = limits.slice(0, SHOWN).map(shortLimit);
  const rest = limits.length - shown.length;
  const all = [...shown, ...(rest > 0 ? [`${rest} more`] : [])];
  if (all.length === 0) return 'these limits contradict each other';
  return all.length === 1
    ? `${all[0]} cannot be kept by any mix`
    : `${all.slice(0, -1).join(', ')} and ${all.at(-1)} contradict each other`;
}

const SHOWN = 3;

/** The elements whose bands this shelf cannot touch. */
export const beyondReach = ({ elements }: ReachResult): string[] =>
  elements.filter((line) => sideBeyond(line) !== '').map((line) => line.element);

/** Which side of the band lies beyond reach whatever else is given up but the caps, in a word. */
export function sideBeyond(line: ReachLine): '' | 'TOO LOW' | 'TOO HIGH' {
  const range = line.whole ?? line.capsOnly;
  if (range === null) return '';
  const { lowest, highest } = range;
  if (line.min !== null && highest !== null && highest < line.min * (1 - 1e-6)) return 'TOO LOW';
  if (line.max !== null && lowest > line.max * (1 + 1e-6)) return 'TOO HIGH';
  return '';
}

/** Whether the aim is within reach, in a word; where not even the band is, on which side it is missed. */
export const aimWord = (line: ReachLine): string =>
  sideBeyond(line) || (line.aimReachable === null ? '' : line.aimReachable ? 'yes' : 'no');

/** The one product or limit that decides. */
export function decidesSays(decides: Decides): string {
  return decides.kind === 'only source'
    ? `${decidesShortly(decides)}, and ${shortLimit(decides.limit)}`
    : decidesShortly(decides);
}

/** The same for a column of a table. */
export function decidesShortly(decides: Decides): string {
  switch (decides.kind) {
    case 'limit':
      return shortLimit(decides.limit);
    case 'only source':
      return `only ${decides.product} brings it`;
    case 'nothing brings it':
      return 'nothing brings it';
    case 'water':
      return decides.mgPerLitre > 0 ? `the water holds ${figure(decides.mgPerLitre)}` : 'what the water holds';
    case 'together':
      return `only together: ${decides.limits.map(shortLimit).join(', ')}`;
  }
}

/** A limit in a table of mg/L: `K ≤ 40.8`. */
const shortLimit = (limit: Limit): string =>
  limit.kind === 'nutrient'
    ? `${limit.nutrient} ${limit.end === 'least' ? '≥' : '≤'} ${figure(limit.bound)}`
    : limitSays(limit);

/** The limits that hold an element back. */
export const limitedBySays = ({ limitedBy }: ReachLine): string[] =>
  limitedBy === null ? ['nothing: no cap limits it'] : limitedBy.map(limitSays);

/** What is worth knowing beside the reach of a shelf. */
export const reachNotes = ({ conflicting, alkaline }: ReachResult): string[] => [
  ...(conflicting
    ? [
        'The limits cannot all be kept together, so most elements show no range: for those, the range with the caps alone decides.',
      ]
    : []),
  ...(alkaline
    ? [
        `Alkalinity is out of reach: the softest water here brings ${figure(alkaline.least)} mg/L as CaCO3, and the medium bears ${figure(alkaline.limit)}; ${atDoor({ typed: '`velamen blend`', page: 'the report of this feed' })} tells the acid, or the share of pure water.`,
      ]
    : []),
];

const CLOSEST = atDoor({ typed: '`velamen blend --closest`', page: 'Closest in Feed' });
