import type { NoSheet } from '../../sheet/sheet-types.js';
import { leftOutSays, noSheetSays, notesSay } from '../says/sheet.js';
import { weighSays } from '../says/doses.js';
import { type Block, facts, list, paragraph, section, type Sheet } from '../sheet.js';
import { offerLine } from './page.js';

/** What stands where there is nothing to mix. */
export interface NoSheetPage {
  title: string;
  plants: string;
  alert: [string, ...string[]];
  notes: string[];
}

export function noSheetPage(sheet: NoSheet): NoSheetPage {
  const { feed, why } = sheet;
  const little =
    why.kind === 'too little to measure' ? [...why.leftOut.map(leftOutSays), ...why.offers.map(offerLine)] : [];
  return {
    title: `${feed.name}: no mixing sheet`,
    plants: `${feed.plants} in ${feed.medium}, ${feed.phase}, ${feed.strength}`,
    alert: [noSheetSays(sheet), ...little],
    notes: notesSay(sheet),
  };
}

/** The commands that level spoons are weighed with, each to be pasted. */
export const weighBlocks = (weigh: ReturnType<typeof weighSays>): Block[] =>
  weigh === null ? [] : [paragraph(weigh.says), ...weigh.commands.map((text): Block => ({ kind: 'command', text }))];

/** The same as blocks, for text and CSV. */
export function noSheetBlocks(sheet: NoSheet): Sheet {
  const { title, plants, alert, notes } = noSheetPage(sheet);
  const [first, ...rest] = alert;
  return {
    title,
    blocks: [
      paragraph(first, 'bad'),
      ...(rest.length === 0 ? [] : [list(rest)]),
      ...weighBlocks(weighSays(sheet.notes.doses)),
      facts(['Plants', plants]),
      ...section('Notes', notes),
    ],
  };
}
