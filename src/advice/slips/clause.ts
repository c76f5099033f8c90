import { amountsOfItem, HEAPED, itemPlanned, moreOfItem, waysOf } from './amounts.js';
import {
  FORGOTTEN,
  ALL_BUT,
  TIMES_OF,
  STRENGTH,
  OF_WHAT,
  AMBIGUOUS_TIMES,
  PERCENT,
  VAGUE,
  AMOUNTS,
  NO_ITEM,
  MORE,
  SWAPPED,
  SHARE_OF,
  HEAPED_UP,
  AS_TOLD,
  ORDER,
} from './patterns.js';
import type { AskedBack, BatchSpokenOf, ReadClause, Way } from './types.js';
import { unsureClause } from './unsure.js';
import { waterClause } from './water.js';
import { whichItem, whichItems } from './which-item.js';

/** One clause: what it tells, what it leaves to be asked back, or null where it is none of the known ones. */
export function readClause(clause: string, batch: BatchSpokenOf): ReadClause {
  let asked: { ask: AskedBack } | null = null;
  for (const reader of READERS) {
    const read = reader(clause, batch);
    if (read !== null && 'ways' in read) return read;
    asked ??= read;
  }
  return asked;
}

const READERS: readonly ((clause: string, batch: BatchSpokenOf) => ReadClause)[] = [
  (clause, batch) => unsureClause(clause, batch, readClause),
  asTold,
  waterClause,
  forgotten,
  multiplied,
  measured,
  swapped,
  vague,
];

/** Of the items that words name, what is made of each; several joined by `or` are ways. */
export function ofItems(words: string, batch: BatchSpokenOf, factor: number): ReadClause {
  const which = whichItems(words, batch);
  if (which === null || 'ask' in which) return which;
  const slips = which.items.map((item) => ({ kind: 'item', item, factor }) as const);
  if (which.joint === 'and') return { ways: [{ share: 1, slips }] };
  return { ways: slips.map((slip): Way => ({ share: 1 / slips.length, slips: [slip] })) };
}

function asTold(clause: string): ReadClause {
  return AS_TOLD.test(clause) ? { ways: [{ share: 1, slips: [] }] } : null;
}

function forgotten(clause: string, batch: BatchSpokenOf): ReadClause {
  return first([...FORGOTTEN, ALL_BUT], clause, ({ items }) => ofItems(items!, batch, 0));
}

function multiplied(clause: string, batch: BatchSpokenOf): ReadClause {
  const strength = STRENGTH.exec(clause);
  if (strength) return ofItems('everything', batch, factorOf((strength.groups!.times ?? strength.groups!.changed)!));
  const heaped = first(HEAPED_UP, clause, ({ items }) => heapedUp(items!, clause, batch));
  if (heaped !== null) return heaped;
  const share = first(SHARE_OF, clause, ({ items, percent: of }) =>
    ofItems(items!, batch, Number(of!.replace(',', '.')) / 100),
  );
  if (share !== null) return share;
  if (OF_WHAT.test(clause)) return { ask: ofWhat(clause, batch) };
  const unclear = AMBIGUOUS_TIMES.exec(clause);
  if (unclear)
    return asking(
      `"${clause}"`,
      'a number that means one thing',
      'Write how often it went in (base twice), or how much (2 g base).',
    );
  const percent = first(PERCENT, clause, ({ items, percent: by, side }) =>
    ofItems(
      items!,
      batch,
      Math.max(0, 1 + ((/more|much|over|extra|high/.test(side!) ? 1 : -1) * Number(by!.replace(',', '.'))) / 100),
    ),
  );
  return percent ?? first(TIMES_OF, clause, ({ items, times }) => ofItems(items!, batch, factorOf(times!)));
}

/** Heaped spoons of an item that is planned in level ones. */
const heapedUp = (words: string, clause: string, batch: BatchSpokenOf): ReadClause =>
  ofOne(words, batch, (place) =>
    batch.items[place]!.bySpoon
      ? { ways: waysOf(HEAPED.map((factor) => [place, factor])) }
      : asking(`"${clause}"`, 'how much of it went in', 'It is not planned by the spoon: write how much went in.'),
  );

function measured(clause: string, batch: BatchSpokenOf): ReadClause {
  const more = first(MORE, clause, ({ items, amount, side }) =>
    ofOne(items!, batch, (place) =>
      moreOfItem(place, amount!, /little|few|less|short|under/.test(side!) ? -1 : 1, batch),
    ),
  );
  if (more !== null && 'ways' in more) return more;
  const told = first(AMOUNTS, clause, ({ items, amount, meant, meantFor }) =>
    ofOne(items!, batch, (place) => amountsOfItem(place, amount!, meant ?? meantFor, batch)),
  );
  if (told !== null) return told;
  const bare = NO_ITEM.exec(clause)?.groups;
  if (bare === undefined) return more;
  const meant = (bare.meant ?? bare.meantFor)!;
  const place = itemPlanned(bare.amount!, meant, batch);
  return typeof place === 'number' ? amountsOfItem(place, bare.amount!, meant, batch) : place;
}

/** The amounts of two items exchanged: by the spoonful where both are spooned, else by weight. */
function swapped(clause: string, batch: BatchSpokenOf): ReadClause {
  return first(SWAPPED, clause, ({ one, two }) =>
    ofOne(one!, batch, (a) =>
      ofOne(two!, batch, (b) => {
        if (a === b) return null;
        const [x, y] = [batch.items[a]!, batch.items[b]!];
        if (x.product.composition.per !== y.product.composition.per)
          return asking(
            `"${clause}", a powder and a liquid`,
            'how much went in of each',
            `Write for example 2 g ${x.product.id}, 3 mL ${y.product.id}.`,
          );
        const spooned = x.bySpoon && y.bySpoon && x.product.bulkDensity && y.product.bulkDensity;
        const ratio = spooned ? x.product.bulkDensity! / y.product.bulkDensity! : 1;
        const slips = [
          { kind: 'item', item: a, factor: (y.planned * ratio) / x.planned },
          { kind: 'item', item: b, factor: x.planned / ratio / y.planned },
        ] as const;
        return { ways: [{ share: 1, slips }] };
      }),
    ),
  );
}

function vague(clause: string, batch: BatchSpokenOf): ReadClause {
  const unclear = first(VAGUE, clause, ({ items }) => {
    const which = whichItems(items!, batch);
    if (which === null || 'ask' in which) return which;
    return asking(
      `"${clause}"`,
      'how much of it went in',
      `Write how much went in: 2 g ${batch.items[which.items[0]!]!.product.id}, or twice.`,
    );
  });
  if (unclear !== null) return unclear;
  if (!ORDER.test(clause)) return null;
  return asking(
    `"${clause}"`,
    'what went in, and how much',
    'The order does not change what is in the can: see whether it is clear, and leave it out.',
  );
}

const asking = (found: string, expected: string, fix: string): { ask: AskedBack } => ({
  ask: { found, expected, fix },
});

/** The first pattern that gives a reading; else what the first one that fits asks back. */
function first(
  patterns: readonly RegExp[],
  clause: string,
  read: (found: Record<string, string | undefined>) => ReadClause,
): ReadClause {
  let asked: ReadClause = null;
  for (const pattern of patterns) {
    const groups = pattern.exec(clause)?.groups;
    if (groups === undefined) continue;
    const found = read(groups);
    if (found !== null && 'ways' in found) return found;
    asked ??= found;
  }
  return asked;
}

function ofOne(words: string, batch: BatchSpokenOf, read: (place: number) => ReadClause): ReadClause {
  const place = whichItem(words, batch);
  return typeof place === 'number' ? read(place) : place;
}

const FACTORS: readonly (readonly [RegExp, number])[] = [
  [/^two thirds/, 2 / 3],
  [/^three quarters/, 0.75],
  [/^(?:a half|half|halved|1\/2)/, 0.5],
  [/^(?:a third|1\/3)/, 1 / 3],
  [/^(?:a quarter|quarter|1\/4)/, 0.25],
  [/^(?:a tenth|1\/10)/, 0.1],
  [/^once/, 1],
  [/^second/, 2],
  [/^(?:ten|10)/, 10],
  [/^(?:four|4|x ?4)/, 4],
  [/^(?:three|thrice|trip|3|x ?3)/, 3],
  [/^(?:twice|two|doubl|2|x ?2)/, 2],
];

function factorOf(words: string): number {
  // `1.5 times`, `2 x`
  const figure = /^(?:(\d+) )?(\d+)\/(\d+)|^\d*[.,]?\d+/.exec(words);
  if (figure === null) return FACTORS.find(([pattern]) => pattern.test(words))![1];
  const [whole, ones, top, bottom] = figure;
  return bottom === undefined ? Number(whole.replace(',', '.')) : Number(ones ?? 0) + Number(top) / Number(bottom);
}

const ofWhat = (clause: string, { items }: BatchSpokenOf): AskedBack => {
  const often = /half|halv|under/.test(clause) ? 'half of' : null;
  const ids = items.map(({ product }) => product.id);
  const ways = ids.map((id) =>
    often === null ? `${id} ${/tripl/.test(clause) ? 'three times' : 'twice'}` : `${often} ${id}`,
  );
  return {
    found: `"${clause}"`,
    expected: 'of what',
    fix: `Write everything ${often === null ? 'twice' : 'at half'}, or ${ways.join(', or ')}.`,
  };
};
