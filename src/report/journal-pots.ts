import { atDoor } from '../door.js';
import type { JournalPots, PotLine, PotStands } from '../year/journal/results.js';
import { figure } from './figures.js';
import { potSays } from './says/journal.js';
import { onPen, penUnit } from './says/on-pen.js';
import { type Block, heading, inFull, list, paragraph, type Sheet, table } from './sheet.js';

/** The pots by what runs out of them: how each stands, what to do, and how it went. */
export function journalPotSheet({ file, pots, scale }: JournalPots): Sheet {
  return {
    title: 'Pots',
    blocks: [
      ...(pots.length === 0
        ? [
            paragraph(
              atDoor({
                typed: `No pot of that name was read in ${file}: velamen journal add --pot NAME --reading 0.9 --feed FEED.`,
                page: 'No pot was read yet.',
              }),
              'bad',
            ),
          ]
        : pots.flatMap((pot) => potBlocks(pot, scale))),
      ...(pots.length === 0 ? [] : [heading('Where this is from'), list(sources(pots))]),
    ],
  };
}

/** What to do with a pot, in the tone of it. */
export const potBlock = (pot: PotStands, scale: number | null): Block =>
  paragraph(potSays(pot, scale), pot.standing === 'go on' ? 'good' : pot.standing === 'flush' ? 'bad' : 'plain');

function potBlocks(pot: PotLine, scale: number | null): Block[] {
  const { points, feed, medium } = pot;
  const of = [feed, medium].filter((word) => word !== '').join(', ');
  return [
    heading(of === '' ? pot.pot : `${pot.pot} (${of})`),
    potBlock(pot, scale),
    ...(points.length < 2
      ? []
      : inFull([
          table(
            ['day', `>run-off, ${penUnit(scale)}`, '>fed', '>times'],
            points.map(({ date, runOff, fed }) => [
              date,
              onPen(runOff, scale),
              fed === null ? '' : onPen(fed, scale),
              fed === null || fed <= 0 ? '' : figure(runOff / fed),
            ]),
          ),
        ])),
  ];
}

/** How well it is supported: the volume by its row, the ends of build-up by practice alone. */
const sources = (pots: readonly PotLine[]): string[] => [
  ...new Set(
    pots.flatMap(({ medium, support }) =>
      support === null
        ? []
        : [`Water for a flush, ${medium}: ${support.source} (${support.evidence}; ${support.notes}).`],
    ),
  ),
  'Run-off above 1.5 × what is fed is flushed, up to 1.2 × is fed on: common practice, no source. The label, and rules on what may run off, come first.',
];
