import type { FlushRow } from '../../catalog/practice.js';
import type { Checked } from '../../problem.js';
import { identityOf } from '../../units/index.js';
import type { Draft, Entry } from './entry.js';
import { foldJournal, type JournalText } from './read.js';
import type { JournalPots, PotLine, PotStands } from './results.js';
import { Newest } from './shown.js';

/**
 * Where salts build up: run-off reads more than so many times what is fed, and by more than a pen and a spoon are off; to go on, it is to be
 * near it again. Common practice, no source: growers speak of a third to a half more as usual, and of twice as much.
 */
export const BUILD_UP = { flush: 1.5, goOn: 1.2, least: 0.15, near: 0.05 } as const;

/** Readings of a pot that are shown. */
const MOST_POINTS = 24;
/** Pots that are told apart. */
const MOST_POTS = 2000;

/** How a pot stands by what ran out of it last: go on feeding, look again, or flush it first. */
export function standingOf(runOff: number, fed: number): PotLine['standing'] {
  if (runOff <= goOnAt(fed)) return 'go on';
  return runOff > Math.max(BUILD_UP.flush * fed, fed + BUILD_UP.least) ? 'flush' : 'look again';
}

/** mS/cm of run-off at which feeding goes on. */
export const goOnAt = (fed: number): number => Math.max(BUILD_UP.goOn * fed, fed + BUILD_UP.near);

/** The pots of a journal by their names, each with its run-off over time against what it was fed, and what to do. */
export function potsOf(journal: JournalText, flushes: readonly FlushRow[], name: string | null): Checked<JournalPots> {
  const wanted = name === null ? null : identityOf(name);
  const pots = new Map<string, { last: Entry; holds: number | null; newest: Newest<PotLine['points'][number]> }>();
  const read = foldJournal(journal, (entry, isLive) => {
    if (!isLive || entry.kind !== 'pot' || entry.reading === null) return;
    const key = identityOf(entry.pot);
    if (wanted !== null && key !== wanted) return;
    const known = pots.get(key);
    if (!known && pots.size >= MOST_POTS) return;
    const pot = known ?? { last: entry, holds: null, newest: new Newest(MOST_POINTS) };
    pots.set(key, pot);
    pot.last = entry;
    pot.holds = entry.litres ?? pot.holds;
    pot.newest.put({ entry: entry.entry, date: entry.date, runOff: entry.reading, fed: entry.expected });
  });
  if (!read.ok) return read;
  const lines = [...pots.values()].map(({ last, holds, newest }) => ({
    ...standsOf(last, holds, flushes),
    points: newest.all(),
  }));
  return { ...read, value: { status: 'told', file: journal.name, pots: lines, scale: null } };
}

/** How a pot stands by one reading of it. @param holds litres of the empty pot */
export function standsOf(
  { pot, feed, medium, reading, expected }: Draft,
  holds: number | null,
  flushes: readonly FlushRow[],
): PotStands {
  const row = flushes.find((one) => one.medium === medium) ?? null;
  const fed = expected === null || expected <= 0 ? null : expected;
  return {
    pot,
    feed,
    medium,
    runOff: reading!,
    fed,
    buildUp: fed === null ? null : reading! / fed,
    standing: fed === null ? 'not known' : standingOf(reading!, fed),
    goOnAt: fed === null ? null : goOnAt(fed),
    holds,
    potVolumes: row?.potVolumes ?? null,
    flushLitres: row?.potVolumes != null && holds !== null ? row.potVolumes * holds : null,
    support: row && { source: row.source, evidence: row.evidence, notes: row.notes },
  };
}
