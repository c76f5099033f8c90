import type { Extent, ReachLine, ReachResult } from '../feed/results.js';
import { headerFacts } from './blend.js';
import { figure } from './figures.js';
import { proofSentence } from './says/proof.js';
import { aimWord, decidesSays, decidesShortly, limitedBySays, reachAnswer } from './says/reach.js';
import { type Block, facts, heading, inFull, list, paragraph, type Sheet, section, spoken, table } from './sheet.js';

/** How far each element can be moved on this shelf, whether its aim is within reach, and what decides where it is not. */
export function reachSheet(result: ReachResult, water: string): Sheet {
  const torn = result.elements.some((line) => line.whole === null);
  const { clause, beside } = reachAnswer(result);
  return {
    title: result.proof.unfinished
      ? `Not finished: how far ${result.feed.name} reaches`
      : `${result.feed.name}: ${clause}`,
    blocks: [
      ...(beside === null ? [] : [paragraph(spoken(beside), result.status === 'together' ? 'plain' : 'bad')]),
      table(
        ['mg/L', '>least', '>aim', '>most', '>lowest', '>highest', 'in reach', 'what decides'],
        result.elements.map((line) => [
          line.element,
          end(line.min),
          end(line.aim),
          end(line.max),
          ...ends(line),
          aimWord(line),
          line.decides === null ? '' : decidesShortly(line.decides),
        ]),
      ),
      paragraph(
        `Lowest and highest, and whether the aim is in reach: every other limit kept.${torn ? TORN : ''}`,
        'quiet',
      ),
      paragraph(spoken(proofSentence(result.proof)), result.status === 'open' ? 'bad' : 'good'),
      ...head(result, water),
      ...inFull(causes(result)),
    ],
  };
}

const TORN =
  ' In brackets: the other limits cannot all be kept, so their minima are given up; of their aims only what even then is out of reach is told.';

function head({ feed, shelf }: ReachResult, water: string): Block[] {
  const about = headerFacts(feed, water);
  return about.kind === 'facts' ? [{ ...about, facts: [...about.facts, { name: 'Shelf', value: shelf }] }] : [about];
}

/** Every limit that holds an element back, and how far it goes with the caps alone. */
function causes({ elements }: ReachResult): Block[] {
  return [
    ...section(
      'What decides where an aim is out of reach',
      elements.flatMap(({ element, decides }) => (decides === null ? [] : [`${element}: ${decidesSays(decides)}`])),
    ),
    heading('Everything that limits an element'),
    list(elements.map((line) => `${line.element}: ${limitedBySays(line).join('; ')}`)),
    heading('With the minima of the other elements given up, mg/L'),
    table(
      ['', '>lowest', '>highest'],
      elements.map(({ element, capsOnly }) => [
        element,
        capsOnly === null ? '' : figure(capsOnly.lowest),
        capsOnly === null ? '' : top(capsOnly.highest),
      ]),
    ),
  ];
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
      aimWord(line),
      span(second),
      second ? aimWord(second) : '',
    ];
  });
  return {
    title: `${mine.feed.name}: two shelves side by side`,
    blocks: [
      facts(['First', mine.shelf], ['Second', other.shelf]),
      table(['mg/L', '>least', '>most', '>first', 'in reach', '>second', 'in reach'], rows),
      paragraph('In reach: the aim, with every other limit kept.', 'quiet'),
      ...([...mine.elements, ...other.elements].some((line) => line.whole === null)
        ? [paragraph('In brackets: the other limits cannot all be kept there, so their minima are given up.', 'quiet')]
        : []),
      list([`First: ${proofSentence(mine.proof)}.`, `Second: ${proofSentence(other.proof)}.`]),
    ],
  };
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

/** Lowest and highest; in brackets what the caps alone allow, where the other limits cannot all be kept. */
function ends({ whole, capsOnly }: ReachLine): [string, string] {
  if (whole !== null) return [figure(whole.lowest), top(whole.highest)];
  return capsOnly === null ? ['', ''] : [`(${figure(capsOnly.lowest)}`, `${top(capsOnly.highest)})`];
}
