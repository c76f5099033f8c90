import type { Catalog } from '../../catalog/catalog.js';
import { LEAST_BATCHES, type Learned } from '../../chance/learned.js';
import { toolsOf } from '../../dose/tools.js';
import { lastingSpread } from '../../chance/lasting.js';
import { withBulkDensity } from '../../dose/density.js';
import type { ClosedProduct } from '../../label/closed-product.js';
import type { Water } from '../../label/product.js';
import { type Batch, type BatchItem, rightReading } from '../../meter/index.js';
import { identityOf, litres } from '../../units/index.js';
import { driftOf, type Drift, type Seen, seenIn } from '../../year/journal/drift.js';
import type { Entry } from '../../year/journal/entry.js';
import { learn, type NewJar } from '../../year/journal/learn.js';
import { type Lesson, lessonOf } from '../../year/journal/lesson.js';
import { foldJournal, type JournalText } from '../../year/journal/read.js';
import { MOST_SEEN, Newest } from '../../year/journal/shown.js';
import { handOf } from '../coded-batch.js';
import type { OpenBench } from '../opened.js';
import { productsKnown } from '../recipe-products.js';

/** The latest good batches that are learned from. */
const MOST_LESSONS = 24;

/** What the journal of a bench tells of its feeds. */
export interface Taught {
  lessons: readonly Lesson[];
  jars: readonly NewJar[];
  drift: Drift;
}

/** What a bench needs to have to be told by its journal. */
export type BenchTaught = Pick<OpenBench, 'shelf' | 'waters' | 'kit'> & { catalog: Catalog };

/**
 * The good batches of a journal, those whose reading at the end lies within what is predicted of them by today's labels, made of what
 * stands on the shelf; after a drift, those since. Where the journal cannot be read, nothing: that is told elsewhere.
 */
export function taughtBy(journal: JournalText, open: BenchTaught): Taught {
  const [batches, seen, jars] = [new Newest<Entry>(4 * MOST_LESSONS), new Newest<Seen>(MOST_SEEN), [] as NewJar[]];
  foldJournal(journal, (entry, isLive) => {
    if (!isLive) return;
    if (entry.kind === 'batch' && entry.reading !== null) batches.put(entry);
    if (entry.kind === 'bought')
      for (const { id } of entry.items) jars.push({ entry: entry.entry, id: identityOf(id) });
    const one = seenIn(entry, entry.entry);
    if (one !== null) seen.put(one);
  });
  const drift = driftOf(seen.all());
  const since = drift.since?.entry ?? 0;
  const known = new Map<string, Batch | null>();
  const lessons = batches
    .all()
    .filter(({ entry }) => entry >= since)
    .flatMap((entry) => lessonIn(entry, open, known) ?? [])
    .slice(-MOST_LESSONS);
  const ids = new Map(lessons.flatMap(({ items }) => items.map(({ id }) => [identityOf(id), id] as const)));
  return { lessons, drift, jars: jars.flatMap(({ entry, id }) => (ids.has(id) ? [{ entry, id: ids.get(id)! }] : [])) };
}

/** What was learned of a feed; undefined where its good batches are too few. */
export function learnedOfFeed({ lessons, jars }: Taught, feed: string): Learned | undefined {
  const learned = learn(lessons, jars, feed);
  return learned.batches >= LEAST_BATCHES ? learned : undefined;
}

function lessonIn(entry: Entry, open: BenchTaught, known: Map<string, Batch | null>): Lesson | undefined {
  const key = JSON.stringify([entry.items, entry.litres, entry.waters]);
  if (!known.has(key)) known.set(key, batchOf(entry, open));
  const batch = known.get(key);
  if (!batch) return undefined;
  const { low, high } = rightReading(batch, 'end');
  if (entry.reading! < low || entry.reading! > high) return undefined;
  const steps = entry.steps.filter(({ step }) => step >= 2 && step <= batch.items.length);
  const readings = [
    ...steps.map(({ step, mSPerCm }) => ({ moment: step - 1, mSPerCm })),
    { moment: 'end' as const, mSPerCm: entry.reading! },
  ];
  return lessonOf(batch, readings, entry);
}

/** An entry as the batch that it was, by the shelf of today; null where a product left it, or was dosed by the pen. */
function batchOf(
  { items, litres: much, waters: shares }: Entry,
  { shelf, waters, kit, catalog }: BenchTaught,
): Batch | null {
  if (items.length === 0 || !(much! > 0) || items.some(({ tool }) => tool === 'pen')) return null;
  const tools = toolsOf(kit);
  const known = productsKnown(catalog);
  const told = items.map((item): BatchItem | null => {
    const row = shelf.products.find(({ id }) => identityOf(id) === identityOf(item.id));
    if (!row || row.composition.per !== item.unit || !(item.amount > 0)) return null;
    const product: ClosedProduct = withBulkDensity(row, known);
    const kind = item.tool === 'spoon' || item.tool === 'dropper' || item.tool === 'syringe' ? item.tool : 'scale';
    const { amount, sd, words } = handOf({ id: item.id, amount: item.amount, tool: kind }, product, tools, known);
    const lasting = lastingSpread(product, kind, tools, known);
    return { product, planned: amount, sd, words, bySpoon: kind === 'spoon', tool: kind, lasting, full: 1 };
  });
  if (told.includes(null)) return null;
  const blend = blendOf(shares, waters);
  return blend && { items: told as BatchItem[], waters: blend, litres: litres(much!) };
}

function blendOf(shares: Entry['waters'], waters: readonly Water[]): Batch['waters'] | null {
  if (shares.length === 0) return waters.map((water) => ({ water, share: 1 / waters.length }));
  const found = shares.flatMap(({ id, share }) => {
    const water = waters.find((one) => identityOf(one.id) === identityOf(id));
    return water ? [{ water, share }] : [];
  });
  return found.length === shares.length ? found : null;
}
