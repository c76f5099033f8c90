import { type Doubted, type Doubts, overByName } from '../../blend/doubted.js';
import type { FeedHeader } from '../../feed/results.js';
import { figure, money } from '../figures.js';
import { canCount } from './given.js';

/** What to look at before anything is mixed, and what the feed is without it: in the first lines of a report. */
export function doubtsSay(
  { doubted, used, without }: Doubts,
  { currency }: Pick<FeedHeader, 'currency'>,
  litres: number,
): string[] {
  const one = doubted.length === 1;
  const it = one ? 'it' : 'them';
  const contradictions = doubted.map(
    ({ name, row }) => `${name} is in the shelf file with N ${say(row[0])}, P2O5 ${say(row[1])}, K2O ${say(row[2])}`,
  );
  const look = `Look at the label first: ${contradictions.join('; ')}, which ${one ? 'its name contradicts' : 'their names contradict'}. Mend the row or the name.`;
  if (!used)
    return [
      `${look} This feed is made without ${it}, for were the name right, the can would hold ${overs(doubted).join(', ')}.`,
    ];
  const over = overs(doubted);
  const named = over.length > 0 ? over : doubted.flatMap(({ ifNamed }) => ifNamed.map(held));
  const rest =
    without === null
      ? `Without ${it} this shelf makes no feed that keeps its limits.`
      : `Without ${it}: ${canCount(without.share)} cans keep the limits, ${money(without.costPerLitre * litres, currency)} a can.`;
  return [`${look} The row is used here; were the name right, the can would hold ${named.join(', ')}. ${rest}`];
}

const overs = (doubted: readonly Doubted[]): string[] =>
  doubted
    .filter(overByName)
    .flatMap(({ ifNamed }) => ifNamed.filter(({ mgPerLitre, most }) => most !== null && mgPerLitre > most).map(held));

const held = ({ element, mgPerLitre, most }: Doubted['ifNamed'][number]): string =>
  `${element} ${figure(Math.max(0, mgPerLitre))}${most !== null && mgPerLitre > most ? ` mg/L, more than ${figure(most)}` : ' mg/L'}`;

const say = (value: number): string => figure(value);
