import type { MeterResult } from '../meter/index.js';
import { percent } from './figures.js';
import { toldSays } from './says/told.js';
import { type Block, heading, paragraph, table } from './sheet.js';
import { shown } from './sheet-page/readings.js';

/** What the grower said, as it was taken, and how it stands to the readings. */
export function toldBlocks(result: MeterResult): Block[] {
  const { told, readings } = result.judgement;
  if (told === null) return [];
  const pen = result.pen.scale ?? 'EC';
  const rows = told.ways.map(({ probability, expected }, k) => [
    capital(toldSays(result.told[k]!, result)),
    ...(readings.length === 0 ? [] : [expected.map((span) => shown(span, pen)).join(', ')]),
    percent(Math.round(100 * probability) / 100),
  ]);
  const reads = readings.length === 0 ? [] : ['>would read'];
  return [
    heading('What you said'),
    table(['', ...reads, '>likelihood'], rows),
    ...(told.agrees === null
      ? []
      : [told.agrees ? paragraph('The reading agrees with it.', 'good') : paragraph(AGAINST, 'bad')]),
  ];
}

const AGAINST = 'The reading contradicts it: one of the two is mistaken, or something else went wrong as well.';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
