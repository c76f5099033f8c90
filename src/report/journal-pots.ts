import type { JournalPots, PotLine } from '../year/journal/results.js';
import { figure } from './figures.js';
import { potSays } from './says/journal.js';
import { type Block, heading, inFull, list, paragraph, type Sheet, table } from './sheet.js';

/** The pots by what runs out of them: how each stands, what to do, and how it went. */
export function journalPotSheet({ file, pots }: JournalPots): Sheet {
  return {
    title: 'Pots',
    blocks: [
      ...(pots.length === 0
        ? [
            paragraph(
              `No pot of that name was read in ${file}: velamen journal add --pot NAME --reading 0.9 --feed FEED.`,
              'bad',
            ),
          ]
        : pots.flatMap(potBlocks)),
      ...(pots.length === 0 ? [] : [heading('Where this is from'), list(sources(pots))]),
    ],
  };
}

function potBlocks(pot: PotLine): Block[] {
  const { points, feed, medium, standing } = pot;
  const of = [feed, medium].filter((word) => word !== '').join(', ');
  return [
    heading(of === '' ? pot.pot : `${pot.pot} (${of})`),
    paragraph(potSays(pot), standing === 'go on' ? 'good' : standing === 'flush' ? 'bad' : 'plain'),
    ...(points.length < 2
      ? []
      : inFull([
          table(
            ['day', '>run-off', '>fed', '>times'],
            points.map(({ date, runOff, fed }) => [
              date,
              figure(runOff),
              fed === null ? '' : figure(fed),
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
