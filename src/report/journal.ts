import { atDoor } from '../door.js';
import type { Draft, JournalItem } from '../year/journal/entry.js';
import type {
  CostLine,
  FeedReadings,
  JournalAdded,
  JournalCost,
  JournalShown,
  JournalStock,
  ShownEntry,
} from '../year/journal/results.js';
import type { StockLeft } from '../year/journal/stock.js';
import { amount, figure, money } from './figures.js';
import { readingBars } from './journal-bars.js';
import { potBlock } from './journal-pots.js';
import { driftSays } from './says/journal.js';
import { onPen, penUnit } from './says/on-pen.js';
import { type Block, facts, heading, inFull, list, paragraph, type Sheet, table } from './sheet.js';
import { volumeText } from './volume.js';

/** An entry that was added, or the undoing of one. */
export function journalEntrySheet(result: JournalAdded): Sheet {
  const { entry, file, draft, status, undone } = result;
  const what = status === 'undone' ? `entry ${draft.of} undone` : TITLES[draft.kind];
  const blocks: Block[] = [
    facts(
      ['Day', draft.date],
      ['Feed', draft.feed],
      [draft.kind === 'pot' ? 'The pot holds' : 'Litres', draft.litres === null ? null : volumeText(draft.litres)],
      ['What', itemsText(undone?.items ?? draft.items)],
      ['Reading', readingText(draft, result.scale)],
      ['pH', draft.pH === null ? null : figure(draft.pH)],
      ['Cost', draft.cost === null ? null : money(draft.cost, draft.currency)],
      ['Note', draft.note],
    ),
    ...verdict(result),
    ...(result.stock.length === 0 ? [] : [heading('Left'), stockTable(result.stock)]),
    paragraph(
      status === 'undone'
        ? `Both stand in ${file}; entry ${draft.of} no longer counts. To bring it back: ${undoSays(entry)}.`
        : `Written to ${file}. Was it a mistake? ${undoSays(entry)}.`,
      'quiet',
    ),
  ];
  return { title: `Entry ${entry}: ${what}`, blocks };
}

const TITLES: Readonly<Record<Draft['kind'], string>> = {
  batch: 'a batch',
  bought: 'bought',
  counted: 'counted',
  standard: 'the pen in its standard',
  pot: 'what ran out of a pot',
  undo: 'undone',
};

function verdict({ within, draft, stands, scale }: JournalAdded): Block[] {
  if (stands !== null) return [potBlock(stands, scale)];
  if (draft.kind === 'standard' && draft.reading !== null && draft.expected !== null) {
    const off = draft.reading / draft.expected - 1;
    const words =
      Math.abs(off) <= 0.02
        ? 'Fine: within 2 %.'
        : atDoor({
            typed: `The pen reads ${figure(100 * Math.abs(off))} % too ${off > 0 ? 'high' : 'low'}: velamen meter --standard says what to do.`,
            page: `The pen reads ${figure(100 * Math.abs(off))} % too ${off > 0 ? 'high' : 'low'}: check it in Plants, which says what to do.`,
          });
    return [paragraph(words, Math.abs(off) <= 0.02 ? 'good' : 'bad')];
  }
  if (within === null) return [];
  return within
    ? [paragraph('The reading is as it should be.', 'good')]
    : [
        paragraph(
          atDoor({
            typed:
              'The reading is not as it should be: velamen meter --sheet CODE --reading … says what happened and what to do.',
            page: 'The reading is not as it should be: judge it at the end of the steps, which says what happened and what to do.',
          }),
          'bad',
        ),
      ];
}

/** The journal read back: the newest entries, and how readings went. */
export function journalSheet({ file, size, entries, feeds, feed, drift, scale }: JournalShown): Sheet {
  const undone = size.undone === 0 ? '' : `, ${size.undone} of them undone`;
  return {
    title: feed === null ? 'Journal' : `Journal of ${feed}`,
    blocks: [
      paragraph(`${size.entries} ${size.entries === 1 ? 'entry' : 'entries'} in ${file}${undone}.`),
      entries.length === 0
        ? paragraph(
            atDoor({
              typed: 'None of them is meant: look at the name, or leave --feed out.',
              page: 'None of them is meant: look at the name.',
            }),
            'bad',
          )
        : table(
            ['>no.', 'day', 'what', '>litres', `>reads, ${scale === null ? 'mS/cm' : 'ppm'}`, '>expected', 'note'],
            entries.map((entry) => entryRow(entry, scale)),
          ),
      ...inFull(wentIn(entries)),
      ...feeds.filter(({ points }) => points.length > 0).flatMap((one) => readings(one, scale)),
      ...(feeds.some(({ points }) => points.length >= 5)
        ? [paragraph(driftSays(drift), drift.verdict === 'none' ? 'good' : 'bad')]
        : []),
    ],
  };
}

function entryRow(entry: ShownEntry, scale: number | null): string[] {
  const { kind, feed, isLive, litres, reading, expected, note, pot, of, items } = entry;
  const what =
    kind === 'batch'
      ? feed
      : kind === 'pot'
        ? `pot ${pot}${litres === null ? '' : ` (holds ${volumeText(litres)})`}`
        : kind === 'undo'
          ? `undoes ${of}`
          : `${kind} ${itemsText(items)}`.trim();
  return [
    String(entry.entry),
    entry.date,
    isLive ? what : `${what} (undone)`,
    litres === null || kind === 'pot' ? '' : figure(litres),
    reading === null ? '' : onPen(reading, scale),
    expected === null ? '' : onPen(expected, scale),
    note,
  ];
}

/** What each batch was made of. */
function wentIn(entries: readonly ShownEntry[]): Block[] {
  const batches = entries.filter(({ kind, items }) => kind === 'batch' && items.length > 0);
  return batches.length === 0
    ? []
    : [heading('What went in'), list(batches.map(({ entry, items }) => `${entry}: ${itemsText(items)}`))];
}

function readings({ feed, batches, litres, points }: FeedReadings, scale: number | null): Block[] {
  return [
    heading(`${feed}: readings, ${penUnit(scale)}`),
    paragraph(`${batches} ${batches === 1 ? 'batch' : 'batches'}, ${volumeText(litres)}.`, 'quiet'),
    ...readingBars(points, scale),
  ];
}

/** What is left. */
export function journalStockSheet({ file, shelf, size, lines, others }: JournalStock): Sheet {
  const short = lines.filter(({ left }) => left !== null && left < -1e-6);
  return {
    title: 'Stock',
    blocks: [
      paragraph(`${shelf} and ${size.entries} entries of ${file}.`),
      stockTable(lines),
      ...(short.length === 0
        ? []
        : [
            paragraph(
              atDoor({
                typed: `More was used than was there of ${short.map(({ id }) => id).join(', ')}: count and add it with --counted.`,
                page: `More was used than was there of ${short.map(({ id }) => id).join(', ')}: count it, and write it down here.`,
              }),
              'bad',
            ),
          ]),
      ...(others.length === 0
        ? []
        : [
            heading('In the journal, not on the shelf'),
            list(others.map(({ id, used, unit }) => `${id}: ${amount(used, unit)} used`)),
          ]),
    ],
  };
}

const stockTable = (lines: readonly StockLeft[]): Block =>
  table(
    ['product', '>left', '>on hand', '>used', '>bought', 'since'],
    lines.map(({ id, unit, left, onHand, change }) => [
      id,
      left === null ? 'not said' : `${left < 0 ? '−' : ''}${amount(Math.abs(left), unit)}`,
      change?.counted != null ? `${amount(change.counted, unit)} counted` : onHand === null ? '' : amount(onHand, unit),
      change ? amount(change.used, unit) : '',
      change && change.bought > 0 ? amount(change.bought, unit) : '',
      change?.on ?? (change ? 'the first line' : ''),
    ]),
  );

/** What the feeds cost. */
export function journalCostSheet({ file, currencies }: JournalCost): Sheet {
  const blocks = currencies.flatMap(({ currency, lines, total, paid }): Block[] => [
    ...(lines.length === 0
      ? []
      : [
          table(
            ['month', 'feed', '>batches', '>litres', `>${currency || 'cost'}`, '>per litre'],
            lines.map(costRow),
            costRow(total),
          ),
        ]),
    ...(total.unknown > 0
      ? [
          paragraph(
            `${total.unknown} of the batches used a product without a price: its pack and price are not on the shelf.`,
          ),
        ]
      : []),
    ...(paid > 0 ? [paragraph(`Paid for packs: ${money(paid, currency)}.`)] : []),
  ]);
  return {
    title: 'Cost',
    blocks: [
      paragraph(`What was used, by the prices of its day, in ${file}.`),
      ...(blocks.length === 0 ? [paragraph('No batch is meant.', 'bad')] : blocks),
    ],
  };
}

const costRow = ({ month, feed, batches, litres, cost, unknown }: CostLine): string[] => [
  month || 'all',
  feed,
  String(batches),
  figure(litres),
  unknown === batches ? '' : figure(cost),
  unknown > 0 || litres === 0 ? '' : figure(cost / litres),
];

const itemsText = (items: readonly JournalItem[]): string =>
  items.map(({ id, amount: much, unit }) => `${amount(much, unit)} ${id}`).join(', ');

function readingText({ reading, expected, low, high, kind }: Draft, scale: number | null): string | null {
  const read = reading === null ? 'not read' : `${onPen(reading, scale)} ${penUnit(scale)}`;
  if (expected === null) return reading === null ? null : read;
  const right = onPen(expected, scale);
  if (low === null || high === null)
    return `${read}; ${kind === 'standard' ? 'should read' : kind === 'pot' ? 'it is fed' : 'expected'} ${right}`;
  return `${read}; right is ${onPen(low, scale)} to ${onPen(high, scale)} (${right} by the labels)`;
}

const undoSays = (entry: number): string =>
  atDoor({ typed: `velamen journal undo ${entry}`, page: `Year, Journal, undo entry ${entry}` });
