import type { Checked } from '../../problem.js';
import { identityOf } from '../../units/index.js';
import { driftOf, type Seen, seenIn } from './drift.js';
import type { Entry } from './entry.js';
import { foldJournal, type JournalText } from './read.js';
import type { FeedReadings, JournalShown, ShownEntry } from './results.js';

/** What is kept of a long journal. */
export interface ShowAsked {
  /** Entries that are shown, the newest. */
  last: number;
  /** The feed that is meant; null for all. */
  feed: string | null;
}

/** Readings of one feed that a picture still shows. */
const MOST_POINTS = 200;
/** Readings that a drift is looked for in. */
export const MOST_SEEN = 60;
/** Feeds that are told apart. */
const MOST_FEEDS = 50;

/** The newest entries, and the readings of each feed over time. */
export function shownJournal(journal: JournalText, { last, feed }: ShowAsked): Checked<JournalShown> {
  const wanted = feed === null ? null : identityOf(feed);
  const entries = new Newest<ShownEntry>(last);
  const feeds = new Map<string, FeedReadings & { newest: Newest<FeedReadings['points'][number]> }>();
  const seen = new Newest<Seen>(MOST_SEEN);
  const read = foldJournal(journal, (entry, isLive) => {
    const one = isLive ? seenIn(entry, entry.entry) : null;
    if (one !== null) seen.put(one);
    if (wanted !== null && identityOf(entry.feed) !== wanted) return;
    entries.put({ ...entry, isLive });
    if (isLive && entry.kind === 'batch') readingOf(entry, feeds);
  });
  if (!read.ok) return read;
  const readings = [...feeds.values()].map(({ newest, ...rest }) => ({ ...rest, points: newest.all() }));
  return {
    ...read,
    value: {
      status: 'shown',
      file: journal.name,
      size: read.value,
      feed,
      entries: entries.all(),
      feeds: readings,
      drift: driftOf(seen.all()),
      scale: null,
    },
  };
}

function readingOf(
  { entry, date, feed, litres, reading, expected, low, high }: Entry,
  feeds: Map<string, FeedReadings & { newest: Newest<FeedReadings['points'][number]> }>,
): void {
  const key = identityOf(feed);
  const known = feeds.get(key);
  if (!known && feeds.size >= MOST_FEEDS) return;
  const of = known ?? { feed, batches: 0, litres: 0, points: [], newest: new Newest(MOST_POINTS) };
  feeds.set(key, of);
  of.batches += 1;
  of.litres += litres ?? 0;
  if (reading !== null) of.newest.put({ entry, date, reading, expected, low, high });
}

/** The newest of a stream, so many at most, in the order in which they came. */
export class Newest<T> {
  private kept: T[] = [];
  constructor(private readonly most: number) {}

  put(one: T): void {
    this.kept.push(one);
    // cut now and then, so that each costs the same on average
    if (this.kept.length >= 2 * this.most + 64) this.kept = this.kept.slice(-this.most);
  }

  all(): T[] {
    return this.most >= this.kept.length ? this.kept : this.kept.slice(-this.most);
  }
}
