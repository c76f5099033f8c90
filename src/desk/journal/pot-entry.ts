import { atDoor } from '../../door.js';
import type { FeedSpec } from '../../catalog/bench-types.js';
import { problem } from '../../problem.js';
import { byName, identityOf } from '../../units/index.js';
import type { Draft } from '../../year/journal/entry.js';
import { compiledPractice } from '../../year/compiled-practice.js';
import { potsOf, standsOf } from '../../year/journal/pots.js';
import { foldJournal } from '../../year/journal/read.js';
import type { PotStands } from '../../year/journal/results.js';
import { warmthOf } from '../asked-can.js';
import { benchAndShelf } from '../opened.js';
import { penFactor, penUse } from '../pen.js';
import type { EntryAsked } from './entry-asked.js';

/** What ran out of a pot, beside what it is fed: by the pen, else by the last batch of its feed. */
export function potEntry({ files, wishes, catalog, collected, begun }: EntryAsked): Draft {
  const { bench } = benchAndShelf(files, wishes, catalog, collected, false);
  const pot = collected.wish(wishes, 'pot')?.trim() ?? '';
  const holds = collected.wish(wishes, 'holds') ?? null;
  const pen = penUse(wishes, bench?.pen, collected);
  const scale = pen?.scale ?? null;
  const readings = collected.wishes(wishes, 'reading', { scale });
  const fedRead = collected.wish(wishes, 'fed', { scale });
  const factor = penFactor(wishes, collected);
  const feed = feedOf(bench?.feeds ?? [], wishes.feed);
  const [reading] = readings;
  if (wishes.reading === undefined || readings.length !== 1)
    collected.add(
      problem(
        'pot-reading',
        { field: '--reading' },
        `${wishes.reading?.length ?? 0} readings`,
        'one reading, of what runs out of the pot',
        atDoor({
          typed: 'Water it, catch what runs out below in a clean cup, and add --reading 0.9.',
          page: 'Water it, catch what runs out below in a clean cup, and write what the pen shows of it.',
        }),
      ),
    );
  if (wishes.feed !== undefined && feed === undefined && bench)
    collected.add(
      problem('unknown-feed', { field: '--feed' }, `"${wishes.feed}"`, 'a feed of the bench', feedsSay(bench.feeds)),
    );
  const at25 = factor / warmthOf(pen);
  const fed = fedRead ? fedRead.mSPerCm * at25 : lastRead(files, feed?.name);
  if (fed === null && wishes.fed === undefined)
    collected.add(
      problem(
        'fed-missing',
        { field: '--fed' },
        feed ? `no batch of ${feed.name} in the journal` : 'no feed, and nothing that the pen shows of it',
        'what the pot is fed',
        bench && !feed
          ? feedsSay(bench.feeds)
          : atDoor({
              typed: 'Add --fed with what the pen shows of it.',
              page: 'Write what the pen shows of what it is fed.',
            }),
      ),
    );
  collected.settle();
  return {
    ...begun('pot'),
    pot,
    feed: feed?.name ?? '',
    medium: feed?.medium ?? '',
    litres: holds,
    reading: reading!.mSPerCm * at25,
    expected: fed,
    penFactor: factor === 1 ? null : factor,
    temperature: pen?.temperatureC ?? null,
  };
}

/** How the pot stands by this reading; what it holds is remembered from an earlier one. */
export function potStands({ journal }: EntryAsked['files'], draft: Draft): PotStands {
  const { flushes } = compiledPractice;
  const known = journal && draft.litres === null ? potsOf(journal, flushes, draft.pot) : undefined;
  return standsOf(draft, draft.litres ?? (known?.ok ? (known.value.pots[0]?.holds ?? null) : null), flushes);
}

/** The feed that is meant; of a bench with one, that. */
const feedOf = (feeds: readonly FeedSpec[], name: string | undefined): FeedSpec | undefined =>
  name === undefined ? (feeds.length === 1 ? feeds[0] : undefined) : byName(feeds, name, (feed) => feed.name);

const feedsSay = (feeds: readonly FeedSpec[]): string =>
  feeds.length === 0
    ? atDoor({ typed: 'Add --fed with what the pen shows of it.', page: 'Write what the pen shows of what it is fed.' })
    : atDoor({
        typed: `Name it with --feed: ${feeds.map(({ name }) => name).join(', ')}.`,
        page: `Choose its feed: ${feeds.map(({ name }) => name).join(', ')}.`,
      });

/** What the last batch of a feed read, or what was expected of it; null where there is none. */
function lastRead({ journal }: EntryAsked['files'], feed: string | undefined): number | null {
  let found: number | null = null;
  if (journal && feed !== undefined)
    foldJournal(journal, (entry, isLive) => {
      if (isLive && entry.kind === 'batch' && identityOf(entry.feed) === identityOf(feed))
        found = entry.reading ?? entry.expected ?? found;
    });
  return found;
}
