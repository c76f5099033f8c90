import { atDoor } from '../../door.js';
import type { RecipeLine } from '../../advice/recipe.js';
import type { Product } from '../../label/product.js';
import { type Batch, type BatchItem, type Reading, rightReading } from '../../meter/index.js';
import { itemsAt } from '../../meter/batch.js';
import { warning } from '../../problem.js';
import { identityOf } from '../../units/index.js';
import type { Draft, JournalItem } from '../../year/journal/entry.js';
import { foldJournal } from '../../year/journal/read.js';
import { type AskedCan, askedCan, placed } from '../asked-can.js';
import { closeLabels } from '../close-labels.js';
import { recipeReadBy } from '../dosed-recipe.js';
import type { EntryAsked } from './entry-asked.js';

/** A batch: the doses of its sheet, of a recipe or of the feed, with what was really used, and what the pen showed of it. */
export async function batchEntry({ files, wishes, catalog, collected, begun }: EntryAsked): Promise<Draft> {
  const asked = await askedCan(files, wishes, catalog, collected);
  const { open, pen, factor, measured } = asked;
  const used = collected.wishes(wishes, 'used', recipeReadBy(open, catalog, pen?.scale ?? null)).flat();
  const pH = collected.wish(wishes, 'ph') ?? null;
  const draft = begun('batch');
  warnTwice(draft.date, wishes.sheet, files, collected);
  collected.settle();
  const planned = await asked.planned();
  const litres = measured ?? planned.batch.litres;
  const items = await withUsed(planned.batch.items, used);
  const batch: Batch = { ...planned.batch, items, litres, meantFor: litres };
  const readings = placed(asked.readings, batch, factor, pen!, collected);
  const end = readings.find(({ moment }) => isEnd(batch, moment));
  const right = rightReading(batch, 'end');
  // a drift is told against what labels say, which does not learn
  const byLabels = rightReading({ ...batch, learned: undefined } as Batch, 'end');
  const { cost, currency } = costOf(batch, open);
  return {
    ...draft,
    feed: planned.request.header.name,
    litres,
    items: items.map(itemOf),
    reading: end?.mSPerCm ?? null,
    expected: byLabels.mSPerCm,
    low: right.low,
    high: right.high,
    steps: readings.filter((reading) => reading !== end).map(stepOf),
    penFactor: factor === 1 ? null : factor,
    temperature: pen?.temperatureC ?? null,
    pH,
    cost,
    currency,
    medium: open.feeds[0]?.medium ?? '',
    waters: batch.waters.length > 1 ? batch.waters.map(({ water: { id }, share }) => ({ id, share })) : [],
    strength: planned.request.header.strengthFactor || null,
    sheet: wishes.sheet?.trim().toUpperCase() ?? '',
  };
}

/** Read after the last item of a can that is full by then, it is read at the end. */
const isEnd = (batch: Batch, moment: Reading['moment']): boolean =>
  moment === 'end' || (itemsAt(batch, moment) === batch.items.length && (batch.items.at(-1)?.full ?? 1) === 1);

/** Steps are numbered as on the sheet: 1 is the water. */
const stepOf = ({ moment, mSPerCm }: Reading) => ({ step: moment === 'end' ? 0 : moment + 1, mSPerCm });

const itemOf = ({ product, planned, tool, bySpoon }: BatchItem): JournalItem => ({
  id: product.id,
  amount: planned,
  unit: product.composition.per,
  tool: tool ?? (bySpoon ? 'spoon' : null),
});

/** The items with what was really used in the place of what was planned; what was not planned went in last. */
async function withUsed(items: readonly BatchItem[], used: readonly RecipeLine<Product>[]): Promise<BatchItem[]> {
  const same = (a: Pick<Product, 'id'>, b: Pick<Product, 'id'>): boolean => identityOf(a.id) === identityOf(b.id);
  const changed = items.map((item): BatchItem => {
    const line = used.find(({ product }) => same(product, item.product));
    if (!line) return item;
    const share = item.planned > 0 ? item.sd / item.planned : HAND;
    return { ...item, planned: line.amount, sd: share * line.amount, words: line.amountWords, bySpoon: line.bySpoon };
  });
  const more = used.filter(({ product }) => !items.some((item) => same(product, item.product)));
  const closed = await closeLabels(more.map(({ product }) => product));
  return [
    ...changed.filter(({ planned }) => planned > 0),
    ...more.flatMap((line, i): BatchItem[] =>
      line.amount > 0
        ? [
            {
              product: closed[i]!,
              planned: line.amount,
              sd: HAND * line.amount,
              words: line.amountWords,
              bySpoon: line.bySpoon,
              full: 1,
            },
          ]
        : [],
    ),
  ];
}

/** What a dose is off of which only the amount is told (judgement). */
const HAND = 0.05;

/** Money for the products and waters, by the prices of the shelf; null where one of them has none. */
function costOf({ items, waters, litres }: Batch, open: AskedCan['open']): { cost: number | null; currency: string } {
  const prices = items.map(({ product: { price, pack }, planned }) =>
    price === undefined || pack === undefined ? null : (planned * price) / pack,
  );
  const water = waters.reduce((sum, { water: { pricePerLitre }, share }) => sum + share * pricePerLitre * litres, 0);
  const cost = prices.reduce<number | null>((sum, one) => (sum === null || one === null ? null : sum + one), water);
  return { cost, currency: cost === null ? '' : open.currency };
}

/** A sheet whose code stands in the journal for the same day was perhaps added twice. */
function warnTwice(
  date: string,
  sheet: string | undefined,
  { journal }: EntryAsked['files'],
  collected: EntryAsked['collected'],
): void {
  if (!journal || sheet === undefined) return;
  const code = plain(sheet);
  const same: number[] = [];
  foldJournal(journal, (entry, isLive) => {
    if (isLive && entry.kind === 'batch' && entry.date === date && plain(entry.sheet) === code) same.push(entry.entry);
  });
  if (same.length > 0)
    collected.add(
      warning(
        'batch-twice',
        { file: journal.name },
        `this sheet on ${date} already, as entry ${same.join(', ')}`,
        'each batch once',
        atDoor({
          typed: `Where it was one batch, undo one: velamen journal undo ${same.at(-1)}.`,
          page: `Where it was one batch, undo entry ${same.at(-1)}: Year, Journal.`,
        }),
      ),
    );
}

const plain = (code: string): string => code.toUpperCase().replace(/[^0-9A-Z]/g, '');
