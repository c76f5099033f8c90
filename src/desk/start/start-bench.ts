import { benchSchema } from '../../catalog/bench-schema.js';
import type { Catalog } from '../../catalog/catalog.js';
import { type Problem, Refusal } from '../../problem.js';
import { jsonText } from '../../report/json-text.js';
import type { StartResult } from '../../report/start.js';
import type { TextFile } from '../bench-files.js';
import { collecting } from '../collecting.js';
import type { Collected } from '../collected.js';
import { wholeBench } from '../check.js';
import type { OpenBench } from '../opened.js';
import { withGallon } from '../options/gallon.js';
import { shippedCatalog } from '../shipped-catalog.js';
import type { Wishes } from '../wishes.js';
import type { Assumed } from '../../report/start-assumed.js';
import { benchText, type BenchWords, SCHEMA_FILE } from './bench-text.js';
import { type Grown, mediaOf, mediumProblems, readGrown } from './grown.js';
import { saltTwice } from './salt-row.js';
import { currencyOf, usualBatch } from './start-defaults.js';
import { shelfText } from './shelf-text.js';
import { readStartLabel, type StartLabel } from './start-label.js';
import { startWater } from './start-water.js';

/** A new bench: the texts of its files, and what was understood and assumed. */
export interface StartedBench {
  /** Names and contents, bench.yaml last: a folder without it holds no bench. */
  files: readonly { name: string; content: string }[];
  texts: { bench: TextFile; shelf: TextFile };
  /** The bench that they are. */
  open: OpenBench;
  result: Pick<StartResult, 'status' | 'files' | 'labels' | 'assumed'>;
  warnings: readonly Problem[];
}

/**
 * Makes a bench from labels as printed and what was told of plants, kit, pen and water. What was not told is assumed, and said.
 * @param wishes `label` (each a text, or the name of a plain salt), `plants` ("moth orchids in bark, …"), `medium`, `phase`,
 * `strength`, `mix`, `weekly`, `rule`, `kit`, `scale`, `gallon`, `water`, `readingOfWater`, `currency`
 * @param name what the bench is called
 * @throws Refusal with every problem of all of them
 */
export async function startBench(
  wishes: Wishes,
  name = '',
  catalog: Catalog = shippedCatalog(),
): Promise<StartedBench> {
  const collected = collecting({}, wishes);
  const labels = readLabels(wishes, catalog, collected);
  const { words, assumed } = readWords(wishes, name, labels, catalog, collected);
  collected.settle();
  assumed.push(...assumedBulk(labels, words));
  const texts = {
    bench: { name: 'bench.yaml', text: benchText(words) },
    shelf: { name: 'shelf.csv', text: shelfText(labels.map(({ cells }) => cells)) },
  };
  const { open, ofLabel, others } = await openNew(texts, labels, catalog);
  const files = [
    { name: SCHEMA_FILE, content: jsonText(benchSchema(catalog)) },
    { name: texts.shelf.name, content: texts.shelf.text },
    { name: texts.bench.name, content: texts.bench.text },
  ];
  const result = {
    status: 'made' as const,
    files: files.map((file) => file.name),
    labels: labels.map(({ text, id, name: called, form, understood, leftOver, derivedFrom, cells }, i) => ({
      ...{ text, id, name: called, form, understood, leftOver, derivedFrom },
      basis: (cells.get('basis') === 'w/v' ? 'w/v' : 'w/w') as 'w/v' | 'w/w',
      density: Number(cells.get('density')) || null,
      doubts: ofLabel[i]!,
    })),
    assumed: [...labels.flatMap((label) => label.assumed), ...assumed],
  };
  return { files, texts, open, result, warnings: others };
}

/** The labels in their order, each with an id of its own. */
function readLabels(wishes: Wishes, catalog: Catalog, collected: Collected): StartLabel[] {
  const texts = wishes.label ?? [];
  const labels: StartLabel[] = [];
  texts.forEach((text, i) => {
    const read = collected.take(readStartLabel(text, i + 1, catalog, { field: '--label' }));
    if (read) labels.push(apart(read, labels));
  });
  if (texts.length === 0) collected.add(NO_LABEL);
  const twice = saltTwice(texts, catalog);
  if (twice) collected.add(twice);
  return labels;
}

const NO_LABEL: Problem = {
  code: 'no-label',
  severity: 'error',
  where: { field: '--label' },
  found: 'no label',
  expected: 'what stands on your shelf, as the labels print it',
  fix: 'Add for example --label "20-20-20" or --label "Epsom salt"; the whole analysis is better than the grade.',
};

/** Two labels may give one id: the second is numbered. */
function apart(label: StartLabel, before: readonly StartLabel[]): StartLabel {
  const taken = new Set(before.map(({ id }) => id));
  let id = label.id;
  for (let n = 2; taken.has(id); n += 1) id = `${label.id}-${n}`;
  if (id === label.id) return label;
  const assumed = label.assumed.map((one) => ('id' in one ? { ...one, id } : one));
  return { ...label, id, cells: new Map([...label.cells, ['id', id]]), assumed };
}

function readWords(
  wishes: Wishes,
  name: string,
  labels: readonly StartLabel[],
  catalog: Catalog,
  collected: Collected,
) {
  const gallon = collected.wish(wishes, 'gallon');
  const own = (text: string | undefined): string | undefined =>
    text === undefined ? undefined : withGallon(text, gallon);
  const [batch, weekly, kitText] = [own(wishes.mix), own(wishes.weekly), own(wishes.kit)];
  collected.wish({ ...(batch === undefined ? {} : { mix: batch }) }, 'mix');
  collected.wish({ ...(weekly === undefined ? {} : { weekly }) }, 'weekly');
  const kit = collected.wish({ ...(kitText === undefined ? {} : { kit: kitText }) }, 'kit');
  const scale = collected.wish(wishes, 'scale');
  const phase = collected.wish(wishes, 'phase', { catalog });
  collected.wish(wishes, 'strength');
  collected.wishes(wishes, 'rule');
  const water = startWater(wishes, scale ?? null, catalog, collected);
  const grown = grownOf(wishes, catalog, collected);
  const law =
    labels.length > 0 &&
    labels.every(({ european, understood }) => european || understood.length === 0) &&
    labels.some(({ european }) => european);
  const emptyKit = kit === undefined || Object.keys(kit).every((key) => key === 'cans');
  const usual = usualBatch(kit);
  const money = currencyOf(labels, wishes.currency);
  const assumed: Assumed[] = [
    ...grown.assumed,
    ...(batch === undefined ? [usual] : []),
    ...money.assumed,
    ...(emptyKit ? [{ of: 'kit' } as const] : []),
    ...(wishes.scale === undefined ? [{ of: 'pen' } as const] : []),
    ...water.assumed,
    ...(law ? [{ of: 'law', law: 'eu' } as const] : []),
  ];
  const words: BenchWords = {
    name,
    currency: money.currency,
    law: law ? 'eu' : undefined,
    waters: water.waters,
    kit,
    pen: wishes.scale === undefined ? undefined : scale === null ? 'EC' : String(scale),
    feeds: grown.feeds,
    phase,
    strength: wishes.strength,
    batch: batch ?? usual.batch,
    weekly,
    rules: wishes.rule ?? [],
  };
  return { words, assumed };
}

/** The feeds of the plants named; phalaenopsis, the commonest, where none are. */
function grownOf(wishes: Wishes, catalog: Catalog, collected: Collected) {
  const told =
    wishes.plants === undefined ? undefined : collected.take(readGrown(wishes.plants, catalog, { field: '--plants' }));
  const medium = collected.wish(wishes, 'medium', { catalog });
  const grown: Grown[] =
    told ?? (wishes.plants === undefined ? [{ words: 'moth orchids', plants: 'phalaenopsis', medium: null }] : []);
  const assumed: Assumed[] = [];
  const feeds = grown.map((one) => {
    const own = one.medium ?? medium;
    collected.add(...mediumProblems({ ...one, medium: own ?? null }, catalog, { field: '--medium' }));
    const usual = mediaOf(one.plants, catalog);
    const inside = own ?? usual.find((which) => which === 'bark') ?? usual[0]!;
    const { plants } = one;
    if (wishes.plants === undefined) assumed.push({ of: 'plants', plants, medium: inside });
    else if (own === undefined) assumed.push({ of: 'medium', plants, medium: inside });
    return { ...one, medium: inside };
  });
  const twice = (words: string): boolean =>
    feeds.filter((feed) => feed.words.toLowerCase() === words.toLowerCase()).length > 1;
  return {
    assumed,
    feeds: feeds.map((feed) => ({ ...feed, name: twice(feed.words) ? `${feed.words} in ${feed.medium}` : feed.words })),
  };
}

/** g/mL of a level powder that nobody weighed, within which nineteen of twenty lie (common practice, no source). */
const BULK = { gramsPerMillilitre: 1, off: 0.25 };

/** Where spoons are all there is, a powder that nobody weighed would be measured by nothing: its density is assumed, written down so and said. */
function assumedBulk(labels: readonly StartLabel[], { kit }: BenchWords): Assumed[] {
  if (kit?.spoons === undefined || kit.scale !== undefined) return [];
  const bare = labels.filter(({ form, cells }) => form === 'powder' && !cells.get('bulk_density'));
  for (const { cells } of bare) {
    cells.set('bulk_density', `${BULK.gramsPerMillilitre} +/- ${BULK.off}`);
    cells.set('notes', 'assumed: bulk density; weigh ten level spoons');
  }
  return bare.length === 0 ? [] : [{ of: 'bulk density', ids: bare.map(({ id }) => id), ...BULK }];
}

/**
 * The bench of the files that are to be written, with what is doubtful about it: each label's own beside it.
 * @throws Refusal where anything is wrong, told of the label by its number
 */
async function openNew(texts: StartedBench['texts'], labels: readonly StartLabel[], catalog: Catalog) {
  const first = texts.shelf.text.split('\n').findIndex((line) => line.startsWith('id,')) + 2;
  const collected = collecting(texts, {});
  try {
    const open = await wholeBench(texts, {}, catalog, collected);
    const found = collected.settle();
    const lineOf = ({ where }: Problem): number => (where.file === texts.shelf.name ? (where.line ?? 0) - first : -1);
    const ofLabel = labels.map((_, i) => found.filter((one) => lineOf(one) === i));
    return { open, ofLabel, others: found.filter((one) => labels[lineOf(one)] === undefined) };
  } catch (fault) {
    if (!(fault instanceof Refusal)) throw fault;
    throw new Refusal(fault.problems.map((found) => atLabel(found, labels, first)));
  }
}

/** A problem of a row that is not written yet, told of the label that it was read from. */
function atLabel(found: Problem, labels: readonly StartLabel[], first: number): Problem {
  const { file, line, field } = found.where;
  const label = file === 'shelf.csv' && line !== undefined ? labels[line - first] : undefined;
  if (label === undefined) return found;
  return {
    ...found,
    where: { file: `label ${line! - first + 1}, ${label.name}`, ...(field === undefined ? {} : { field }) },
  };
}
