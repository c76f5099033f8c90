import type { SheetOfFeed } from '../../sheet/sheet-types.js';
import { besideBlocks } from '../given.js';
import { type Block, facts, heading, inFull, list, paragraph, type Sheet, section, table } from '../sheet.js';
import { type TextOptions, renderText } from '../text.js';
import type { LineOnPage } from './lines.js';
import { noSheetBlocks, weighBlocks } from './no-sheet.js';
import { pageOf, type SheetPage } from './page.js';

/** A mixing sheet for the terminal or a plain printer, or why there is none. */
export const sheetText = (sheet: SheetOfFeed, options: TextOptions): string => renderText(sheetReport(sheet), options);

/** The same as a report. */
export const sheetReport = (sheet: SheetOfFeed): Sheet =>
  sheet.status === 'cannot' ? noSheetBlocks(sheet) : textSheet(pageOf(sheet));

/** Its lines as a report. */
function textSheet(page: SheetPage): Sheet {
  return {
    title: page.title,
    blocks: [
      ...page.alert.slice(0, 1).map((line) => paragraph(line, 'bad')),
      ...(page.alert.length > 1 ? [list(page.alert.slice(1))] : []),
      ...(page.wayOut === null ? [] : [paragraph(page.wayOut)]),
      ...weighBlocks(page.weigh),
      facts(
        ['Plants', page.plants],
        ['Date', page.date ?? '____________________'],
        ...page.facts.map(({ name, value }) => [name, value] as const),
      ),
      ...page.bottles.flatMap(({ title, steps }) => section(title, steps)),
      heading('Mix in this order'),
      stepTable(page),
      paragraph(page.tolerance, 'quiet'),
      ...(page.tickOff === null ? [] : [paragraph(page.tickOff)]),
      heading('If the reading at the end is off'),
      ladderTable(page),
      ...section('How sure', page.sureness.slice(0, 1)),
      paragraph(page.keeps),
      ...besideBlocks(page.beside),
      ...section('Notes', page.notes),
      ...inFull([
        ...section('Other ways out', page.others),
        ...section('What the pen cannot see', page.unseen),
        ...section('How sure, in full', page.sureness.slice(1)),
        ...section('How long it keeps, and why', page.keepsBecause),
        ...(page.bars.length === 0
          ? []
          : [heading('What the can holds as measured, against what the plants want'), bars(page)]),
      ]),
      ...(page.cautions.length === 0
        ? []
        : [heading('Take care'), { kind: 'cautions' as const, items: page.cautions }]),
      ...inFull([
        heading('At the sink'),
        facts(
          ['Reading', '____________________   at ________ °C'],
          ['pH', '____________________'],
          ['Mixed by', '____________________'],
          ['Notes', '____________________________________________________________'],
        ),
      ]),
    ],
  };
}

const bars = (page: SheetPage): Block => ({ kind: 'bars', unit: 'mg/L', bars: page.bars });

/** Each line of work takes two or three lines of the table: what to do, then the other measures and the range. */
function stepTable(page: SheetPage): Block {
  const heads = ['', '', ...(page.twoScales ? [`>${page.pen}`, '>mS/cm'] : [`>${page.pen}`])];
  const row = (box: string, says: string, pen: string, ec: string): string[] =>
    page.twoScales ? [box, says, pen, ec] : [box, says, pen];
  const rows = page.lines.flatMap((line) => [
    row(`[ ] ${line.step ?? ''}`.trimEnd(), firstLine(line), line.reading?.pen ?? '', line.reading?.ec ?? ''),
    ...restLines(line).map((says, j) =>
      row('', says, j === 0 ? (line.reading?.range ?? '') : '', j === 0 ? (line.reading?.ecRange ?? '') : ''),
    ),
  ]);
  return table(heads, rows);
}

const firstLine = (line: LineOnPage): string => (line.amount === '' ? line.what : `${line.amount}: ${line.what}`);

/** At least one, for the range of the reading. */
function restLines(line: LineOnPage): string[] {
  const lines = [line.others, line.effect, line.how].filter((text) => text !== '');
  return lines.length === 0 && line.reading !== null ? [''] : lines;
}

function ladderTable(page: SheetPage): Block {
  const rows = page.ladder.map(({ pen, ec, says, right }) => [
    pen,
    ...(page.twoScales ? [ec] : []),
    right ? `${says} <` : says,
  ]);
  return table([`>${page.pen}`, ...(page.twoScales ? ['>mS/cm'] : []), ''], rows);
}
