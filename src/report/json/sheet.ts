import type { Sureness } from '../../chance/sure.js';
import type { MixingSheet, NoSheet, SheetOfFeed, SheetStep } from '../../sheet/sheet-types.js';
import { doseProofSays } from '../says/dose-proof.js';
import { doseOfferSays } from '../says/doses.js';
import { proofSentence } from '../says/proof.js';
import { orderLines } from '../says/order.js';
import { effectSays, noSheetSays, notesSay, surenessSays, unseenSays, waterNames } from '../says/sheet.js';
import type { NoSheetJson, SheetJson } from '../sheet-shapes.js';
import { missName } from '../says/limits.js';
import { givenJson, keepsJson } from './given.js';
import { careJson, missesJson } from './mix.js';

/** What `sheet --json` prints. */
export const sheetJson = (sheet: SheetOfFeed): SheetJson | NoSheetJson =>
  sheet.status === 'cannot' ? noSheetJson(sheet) : mixingSheetJson(sheet);

export function mixingSheetJson(sheet: MixingSheet): SheetJson {
  const { feed, date, code, litres, firstLitres, pen, nitrogen, end, slips, elements, leftOut } = sheet;
  return {
    schema: 'velamen.sheet/1',
    status: sheet.status === 'violated' ? 'missed' : sheet.status,
    ...{ feed, date, code, litres, firstLitres },
    water: { names: waterNames(sheet.water), ...sheet.water },
    ...{ pen, nitrogen },
    steps: sheet.steps.map(stepJson),
    order: { verdict: sheet.order.verdict, says: orderLines(sheet.order) },
    ...{ end, learned: sheet.learned, slips },
    unseen: sheet.unseen.map(unseenSays),
    keeps: keepsJson(sheet.keeps),
    elements,
    misses: sheet.status === 'kept' ? [] : missesJson(sheet.violations),
    offers: sheet.status === 'violated' || sheet.status === 'kept' ? sheet.offers.map(doseOfferSays) : [],
    leftOut,
    ...(sheet.dilutions === undefined
      ? {}
      : {
          dilutions: sheet.dilutions.map(({ feed: name, parts, litres: made }) => ({
            feed: name,
            parts: { mix: parts.mix, water: parts.water },
            litres: made,
            mixLitres: made * parts.share,
          })),
        }),
    sure: sheet.sureness && sureJson(sheet.sureness),
    sureness: surenessSays(sheet),
    ...(sheet.given ? givenTold(sheet.given, elements) : {}),
    notes: notesSay(sheet),
    ...careJson(sheet.cautions),
    asMixed: sheet.hazards,
    proof: `${proofSentence(sheet.proof.blend)}; ${doseProofSays(sheet.proof.doses)}`,
  };
}

/** How near it is and what stands beside it; how sure stands in a part of its own. */
function givenTold(given: NonNullable<MixingSheet['given']>, elements: MixingSheet['elements']) {
  const { near, wayOut, beside, costPerYear, custom } = givenJson(given, elements);
  return { near, wayOut, beside, costPerYear, custom };
}

function noSheetJson(sheet: NoSheet): NoSheetJson {
  const little = sheet.why.kind === 'too little to measure' ? sheet.why : { leftOut: [], offers: [] };
  return {
    schema: 'velamen.sheet/1',
    status: 'cannot',
    feed: sheet.feed,
    date: sheet.date,
    why: noSheetSays(sheet),
    offers: little.offers.map(doseOfferSays),
    leftOut: little.leftOut,
    notes: notesSay(sheet),
    proof: proofSentence(sheet.proof),
  };
}

function stepJson(step: SheetStep): SheetJson['steps'][number] {
  const { id, name, grams, millilitres, measures, wanted, borrowed, byPen, litres, reading } = step;
  return { id, name, grams, millilitres, measures, wanted, effect: effectSays(step), borrowed, byPen, litres, reading };
}

const sureJson = ({
  share,
  elements,
  ec,
  risks,
  sources,
  batches,
  seed,
}: Sureness): NonNullable<SheetJson['sure']> => ({
  ...{ share, elements, ec },
  risks: risks.map(({ limit, share: lost }) => ({
    limit: missName(limit),
    side: limit.end === 'least' ? 'low' : 'high',
    share: lost,
  })),
  ...{ sources, batches, seed },
});
