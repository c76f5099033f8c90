import { atDoor } from '../door.js';
import { strengthText } from '../advice/own-feed.js';
import type { AdviceReading, AdviceResult, OwnMatch, Span } from '../advice/types.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { cautionBlocks } from './blend.js';
import { amount, figure, percent } from './figures.js';
import type { PenScale } from './mix.js';
import { adviceNeedSays, adviceNoteSays, limitedSays, senseSays } from './says/advice.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { volumeText } from './volume.js';

/** What others advise, in every sense it can have, and the same strength with the own feed. `command` is the blend command without a strength. */
export function adviceSheet(result: AdviceResult, command: string, pen: PenScale | null = null): Sheet {
  return {
    title: 'What the advice comes to',
    blocks: [
      facts(['Advice', result.advice], ['Answer', CERTAINTY[result.certainty]]),
      ...tooStrong(result),
      ...readingBlocks(result, pen),
      ...ownBlocks(result, command, pen),
      ...section('How the words are read', result.notes.map(adviceNoteSays)),
      ...section(
        'To make it narrower, ask',
        result.certainty === 'exact' ? [] : result.needed.map((need) => spoken(adviceNeedSays(need))),
      ),
      ...cautionBlocks(result.cautions),
    ],
  };
}

const CERTAINTY = {
  exact: 'one strength',
  range: 'a range: the words leave something open',
  'base unknown': 'a share of a strength that is not told; a range only on the terms below',
} as const;

/** What is stronger than the programme allows is not to be followed. */
function tooStrong(result: AdviceResult): Block[] {
  if (result.status === 'no feed') return [];
  const { own, readings, atMost } = result;
  const held = readings.flatMap((reading, i) => (own.matches[i] ? [{ reading, ...own.matches[i] }] : []));
  const isOver = (end: OwnMatch): boolean => end.limitedBy !== null && end.reached < end.wanted;
  const over = held.filter(({ high }) => isOver(high));
  if (over.length === 0) return [];
  const whole = over.filter(({ low }) => isOver(low));
  const most = over.reduce((a, b) => (b.high.percent > a.high.percent ? b : a)).high;
  const where =
    whole.length === held.length
      ? ''
      : ` where it is read as ${over.map(({ reading }) => senseSays(reading.sense, atMost)).join('; ')}`;
  return [
    paragraph(
      `Do not follow it${where}; at most N ${figure(most.nitrogen)} mg/L, EC ${figure(most.ec)} mS/cm: ${own.feed.name} at ${strength(most)}, for ${own.feed.plants} in ${own.feed.medium}.`,
      'bad',
    ),
  ];
}

function readingBlocks({ readings, atMost }: AdviceResult, pen: PenScale | null): Block[] {
  const elements = (['N', 'P', 'K', 'Ca', 'Mg', 'S'] as const).filter((n) => readings.some((r) => spanOf(r, n)));
  const columns: [head: string, cell: (r: AdviceReading) => Span | null][] = [
    ['>product g/L', (r) => r.gramsPerLitre],
    ...elements.map((n): [string, (r: AdviceReading) => Span | null] => [`>${n} mg/L`, (r) => spanOf(r, n)]),
    ['>EC mS/cm', (r) => r.ec],
    ...(pen === null || pen === 'EC'
      ? []
      : [
          [`>ppm on ${pen}`, (r: AdviceReading) => r.ec && times(r.ec, pen)] as [
            string,
            (r: AdviceReading) => Span | null,
          ],
        ]),
  ];
  const shown = columns.filter(([, cell]) => readings.some((r) => cell(r)));
  return [
    heading('In the can'),
    table(
      ['read as', ...shown.map(([head]) => head)],
      readings.map((r) => [senseSays(r.sense, atMost), ...shown.map(([, cell]) => spanText(cell(r)))]),
    ),
  ];
}

function ownBlocks(result: AdviceResult, command: string, pen: PenScale | null): Block[] {
  if (result.status === 'no feed') return [];
  const { own, readings, atMost } = result;
  const matched = readings.flatMap((reading, i) => (own.matches[i] ? [{ reading, ...own.matches[i] }] : []));
  const ends = matched.flatMap(({ low, high }) => [low, high]);
  const weakest = ends.reduce((a, b) => (b.percent < a.percent ? b : a));
  const strongest = ends.reduce((a, b) => (b.percent > a.percent ? b : a));
  const { feed } = own;
  const { plants, medium, phase } = feed;
  return [
    heading(`The same with your own feed: ${feed.name}`),
    paragraph(
      `${plants} in ${medium}, ${phase}; now at ${feed.strength}. The water alone reads ${figure(own.waterEc)} mS/cm.`,
    ),
    table(
      ['read as', '>strength', '>N mg/L', '>EC mS/cm', ...(pen === null || pen === 'EC' ? [] : [`>ppm on ${pen}`]), ''],
      matched.map(({ reading, low, high }) => [
        senseSays(reading.sense, atMost),
        low.percent === high.percent ? strength(low) : `${strengthText(low.percent)}–${strength(high)}`,
        spanText({ low: low.nitrogen, high: high.nitrogen }),
        spanText({ low: low.ec, high: high.ec }),
        ...(pen === null || pen === 'EC' ? [] : [spanText({ low: low.ec * pen, high: high.ec * pen })]),
        low.limitedBy === null ? (high.limitedBy === null ? '' : 'in part') : 'NOT as advised',
      ]),
    ),
    ...limits(ends),
    ...amounts(weakest, strongest, feed.batchLitres),
    list(commands(weakest, strongest, command)),
    ...(strongest.percent > 0 ? [paragraph(IN_SPOONS)] : []),
    ...beside(readings, weakest, strongest),
  ];
}

function limits(ends: readonly OwnMatch[]): Block[] {
  const said = new Set(ends.flatMap((end) => (end.limitedBy === null ? [] : [spoken(limitedSays(end.limitedBy))])));
  return said.size === 0 ? [] : [paragraph(`Held back: ${[...said].join(' ')}`, 'bad')];
}

function amounts(weakest: OwnMatch, strongest: OwnMatch, batch: number | null): Block[] {
  const litres = batch ?? 1;
  const ends = weakest === strongest || weakest.percent === strongest.percent ? [weakest] : [weakest, strongest];
  const names = new Map(ends.flatMap((end) => end.items.map((item) => [item.id, item.name || item.id] as const)));
  if (names.size === 0) return [];
  const rows = [...names].map(([id, name]) => [
    name,
    ...ends.map((end) => {
      const item = end.items.find((i) => i.id === id);
      if (!item) return '–';
      return item.gramsPerLitre === undefined
        ? amount(item.millilitresPerLitre! * litres, 'mL')
        : amount(item.gramsPerLitre * litres, 'g');
    }),
  ]);
  return [table([`for ${volumeText(litres)}`, ...ends.map((end) => `>at ${strength(end)}`)], rows)];
}

function commands(weakest: OwnMatch, strongest: OwnMatch, command: string): string[] {
  const line = (end: OwnMatch): string =>
    atDoor({ typed: `${command} --strength "${strength(end)}"`, page: `Strength ${strength(end)}, in Feed or Plants` });
  if (strongest.percent === 0) return ['Nothing to mix: the water alone reads that much.'];
  if (weakest.percent === strongest.percent || weakest.percent === 0) return [line(strongest)];
  return [`${line(weakest)}   (start here)`, line(strongest)];
}

/** Proportions, for a same nitrogen is not a same feed. */
function beside(readings: readonly AdviceReading[], weakest: OwnMatch, strongest: OwnMatch): Block[] {
  const advised = readings.find((r) => r.gramsPerLitre !== null && (spanOf(r, 'N')?.low ?? 0) > 0);
  const own = strongest.percent > 0 ? strongest : weakest;
  const grade = (n: Nutrient): string => {
    const here = advised && spanOf(advised, n);
    return here ? figure(here.low / spanOf(advised, 'N')!.low) : 'not told';
  };
  const mine = (n: Nutrient): string => {
    const here = own.elements.find((e) => e.element === n)?.mgPerLitre;
    return own.nitrogen > 0 ? figure((here ?? 0) / own.nitrogen) : '–';
  };
  if (!advised || own.items.length === 0) return [];
  return [
    heading('Side by side, for a same nitrogen is not a same feed'),
    table(
      ['', '>as advised', '>your own'],
      [
        ...(['P', 'K', 'Ca', 'Mg'] as const).map((n) => [`${n} per N`, grade(n), mine(n)]),
        ['ammonium, of N', 'not told', own.ammoniumShare === null ? '–' : percent(own.ammoniumShare)],
      ],
    ),
  ];
}

const strength = ({ percent }: OwnMatch): string => `${strengthText(percent)} %`;

function spanOf(reading: AdviceReading, n: Nutrient): Span | null {
  return reading.elements.find((e) => e.element === n) ?? null;
}

const times = ({ low, high }: Span, by: number): Span => ({ low: low * by, high: high * by });

function spanText(span: Span | null): string {
  if (span === null) return 'not told';
  const [low, high] = [figure(span.low), figure(span.high)];
  return low === high ? low : `${low}–${high}`;
}

const IN_SPOONS = atDoor({
  typed: 'With `sheet` in place of `blend` it comes in your own spoons and scale steps.',
  page: 'Sink tells it in your own spoons and scale steps.',
});
