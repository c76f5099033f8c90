import type { Pen } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { sureness as surenessOf } from '../chance/sure.js';
import { largestCan } from '../dose/notes.js';
import type { FeedRequest } from '../feed/request.js';
import { mixingSheet, type SheetOfFeed } from '../sheet/mixing-sheet.js';
import type { Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { collecting } from './collecting.js';
import { dosesOfFeed } from './doses.js';
import { type FeedWishes, feedWishes } from './feed-wishes.js';
import { askedOfMix, feedRequests, oneFeedOnly, refuseUnsized } from './feed-requests.js';
import { refuseBesideOne, refuseSeveralMixes, sheetsOfOne } from './one.js';
import { type OpenBench, opened } from './opened.js';
import { scaleOf } from './options/pen.js';
import { learnedOfFeed, taughtBy } from './journal/learned.js';
import { productsKnown } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/**
 * The mixing sheet of each feed that is meant, for as much as is to be mixed: doses that the kit can measure, chosen together, in an order
 * that does not cloud, with the reading to expect after each. Where the kit cannot measure it, or no feed keeps every limit, it is the
 * sheet of the nearest doses; `met` is then false, as it is where `sure` asks for more than any doses reach.
 * @throws Refusal with every problem of bench, shelf and wishes, and where nobody says how much to mix
 */
export async function mixingSheets(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answers<SheetOfFeed>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const pen: Pen = open.bench?.pen ?? { reads: 'EC' };
  const date = collected.wish(wishes, 'date') ?? null;
  const water = collected.wish(wishes, 'readingOfWater', { scale: scaleOf(pen) });
  const which = feedWishes(wishes, collected);
  const requests = feedRequests(open, collected, askedOfMix(wishes, collected));
  refuseUnsized(wishes, requests, collected);
  if (wishes.one) refuseBesideOne(wishes, collected);
  else oneFeedOnly(wishes, requests, collected);
  const warnings = collected.settle();
  const brim = largestCan(open.kit.cans);
  const options = {
    pen,
    date,
    ...(water === undefined ? {} : { waterMSPerCm: water }),
    ...(brim === null ? {} : { brimLitres: brim.millilitres / 1000 }),
  };
  if (wishes.one) {
    const sheets = await sheetsOfOne(requests, open, which, options);
    if (sheets.results.length > 1) refuseSeveralMixes(wishes, sheets.results.length);
    // where no feed has a mix, each tells why by itself
    if (sheets.results.length > 0) return { ...sheets, warnings: [...warnings, ...sheets.warnings] };
  }
  const taught = files.journal ? taughtBy(files.journal, open) : null;
  const results = [];
  for (const request of requests) {
    const learned = taught ? learnedOfFeed(taught, request.header.name) : undefined;
    results.push(await sheetOf(request, open, which, { ...options, ...(learned ? { learned } : {}) }));
  }
  return {
    met: results.every(({ sheet, reached }) => reached && measurable(sheet)),
    results: results.map(({ sheet }) => sheet),
    warnings,
  };
}

/** Feed, doses, sheet. Where there is no feed, the nearest one is measured out and says so. */
async function sheetOf(
  request: FeedRequest,
  open: OpenBench,
  which: FeedWishes,
  options: Parameters<typeof mixingSheet>[3],
): Promise<{ sheet: SheetOfFeed; reached: boolean }> {
  const { result, plan, sure } = await dosesOfFeed(request, open, which, {
    offers: true,
    beside: true,
    waterMSPerCm: options.waterMSPerCm,
  });
  if (plan === null) return { sheet: mixingSheet(null, request, result, options), reached: false };
  const sureness = sure?.sureness ?? surenessOf(plan, plan.request, { known: productsKnown(open.catalog) });
  const sheet = mixingSheet(plan, request, result, { ...options, sureness, sure });
  return { sheet, reached: which.sure === undefined || (sure !== null && sure.share >= which.sure) };
}

/** Every limit kept, with what stands in the kit; or with nothing but the water. */
const measurable = (sheet: SheetOfFeed): boolean =>
  sheet.status === 'cannot'
    ? sheet.why.kind === 'water alone' || sheet.proof.unfinished
    : (sheet.status === 'kept' || (sheet.status === 'uncertified' && sheet.proof.blend.unfinished)) &&
      sheet.steps.every((step) => !step.borrowed);
