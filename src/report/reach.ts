import type { Extent, ReachLine, ReachResult } from '../feed/results.js';
import { headerFacts } from './blend.js';
import { figure } from './figures.js';
import { proofSentence } from './says/proof.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { limitedBySays, reachNotes } from './says/blend.js';

/** How far each element can be moved on this shelf, and what stands in the way. */
export function reachSheet(result: ReachResult, water: string): Sheet {
  return {
    title: `${result.feed.name}: what ${result.shelf} can reach`,
    blocks: [
      headerFacts(result.feed, water),
      verdict(result),
      heading('Reach of each element, mg/L'),
      table(
        ['', '>lowest', '>highest', '>caps only', '>least', '>aim', '>most', '', 'limited by'],
        result.elements.map((line) => [
          line.element,
          line.whole ? figure(line.whole.lowest) : '',
          line.whole ? top(line.whole.highest) : '',
          range(line.capsOnly),
          end(line.min),
          end(line.aim),
          end(line.max),
          word(line),
          heldBack(line),
        ]),
      ),
      paragraph(
        'Lowest and highest: every other limit kept. Caps only: the minima of the other elements given up.',
        'quiet',
      ),
      heading('Proof'),
      paragraph(spoken(proofSentence(result.proof)), result.status === 'open' ? 'bad' : 'good'),
      ...section('Notes', reachNotes(result)),
    ],
  };
}

/** Two shelves for the same feed, side by side. */
export function reachAgainstSheet(mine: ReachResult, other: ReachResult): Sheet {
  const theirs = new Map(other.elements.map((line) => [line.element, line]));
  const span = (line: ReachLine | undefined): string =>
    line === undefined ? '' : line.whole === null ? `(${range(line.capsOnly)})` : range(line.whole);
  const rows = mine.elements.map((line) => {
    const second = theirs.get(line.element);
    return [
      line.element,
      end(line.min),
      end(line.max),
      span(line),
      word(line),
      span(second),
      second ? word(second) : '',
    ];
  });
  return {
    title: `${mine.feed.name}: two shelves side by side`,
    blocks: [
      facts(['First', mine.shelf], ['Second', other.shelf]),
      table(['mg/L', '>least', '>most', '>first', '', '>second', ''], rows),
      ...([...mine.elements, ...other.elements].some((line) => line.whole === null)
        ? [paragraph('In brackets: the other limits cannot all be kept there, so their minima are given up.', 'quiet')]
        : []),
      list([`First: ${proofSentence(mine.proof)}.`, `Second: ${proofSentence(other.proof)}.`]),
    ],
  };
}

/** The elements whose bands this shelf cannot touch. */
export function beyondReach(result: ReachResult): string[] {
  return result.elements.filter((line) => word(line) !== '').map((line) => line.element);
}

function verdict(result: ReachResult): Block {
  const beyond = beyondReach(result);
  if (beyond.length > 0) return paragraph(`Out of reach on this shelf: ${beyond.join(', ')}.`, 'bad');
  if (result.elements.every((line) => line.reachable))
    return paragraph('Every element can be brought into its band.', 'good');
  return paragraph(
    'Each element by itself could be brought into its band, but not all limits can be kept together.',
    'bad',
  );
}

const end = (value: number | null): string => (value === null ? '' : figure(value));

/** The highest; an element that nothing holds back has none. */
const top = (highest: number | null): string => (highest === null ? 'no end' : figure(highest));

/** `8–18.1`; empty where even the caps cannot be kept. */
function range(of: Extent | null): string {
  if (of === null) return '';
  const { lowest, highest } = of;
  return highest === null ? `from ${figure(lowest)}` : `${figure(lowest)}–${figure(highest)}`;
}

/** Which side of the band lies beyond reach whatever else is given up but the caps, in a word. */
function word(line: ReachLine): '' | 'TOO LOW' | 'TOO HIGH' {
  const range = line.whole ?? line.capsOnly;
  if (range === null) return '';
  const { lowest, highest } = range;
  if (line.min !== null && highest !== null && highest < line.min * (1 - 1e-6)) return 'TOO LOW';
  if (line.max !== null && lowest > line.max * (1 + 1e-6)) return 'TOO HIGH';
  return '';
}

/** The limits that bite hardest; all of them are in the JSON. */
function heldBack(line: ReachLine): string {
  const limits = limitedBySays(line);
  const rest = limits.length - SHOWN;
  return [...limits.slice(0, SHOWN), ...(rest > 0 ? [`${rest} more`] : [])].join('; ');
}

const SHOWN = 2;
