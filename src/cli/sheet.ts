import { sheetJson } from '../report/json/sheet.js';
import type { Kit, Pen } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { type MixingSheet, mixingSheet } from '../sheet/mixing-sheet.js';
import { sureness } from '../chance/sure.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendResult } from '../feed/results.js';
import { problem } from '../problem.js';
import {
  labelHtml,
  labelText,
  pageOf,
  type Paper,
  sheetCsv,
  sheetHtml,
  sheetText,
} from '../report/sheet-page/index.js';
import { blendSheet } from '../report/blend.js';
import { blendJson } from '../report/json/blend.js';
import { proofSentence } from '../report/says/proof.js';
import { surenessLines } from '../report/sure.js';
import { renderText } from '../report/text.js';
import { browserOf, noBrowser, printPdf } from './browser.js';
import { Collected } from './collect.js';
import type { Command, Given } from './command.js';
import { dosesOfFeed, productsKnown } from './doses-of-feed.js';
import { feedInputs, feedRequests, temperature } from './feed-input.js';
import { FEED_OPTIONS, METER_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { type Io, textOptions } from './io.js';
import { jsonText } from './json.js';
import { parseDate } from '../desk/options/day.js';
import { parseCount } from '../desk/options/number.js';
import { parsePaper } from '../desk/options/paper.js';
import { parseWaterReading } from '../desk/options/pen.js';
import { parseSure } from '../desk/options/share.js';
import { parseCan } from '../desk/options/volume.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { writeText } from './write-file.js';
import { oneFeedForJson } from './one-feed.js';

const { volume: _, ...ON_A_FEED } = FEED_OPTIONS;

/** The mixing sheet: doses that hands can measure, in an order that does not cloud, with the reading after each. */
export const sheetCommand: Command = {
  name: 'sheet',
  summary: 'the mixing sheet for the sink: doses, order, readings; as text, page, PDF, label',
  examples: [
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium',
      says: 'what to measure with your own spoons and scale, in which order, and what the pen shows after each',
    },
    {
      line: 'velamen sheet --bench examples/moss-without-ammonium --can "1 US gal" --html sheet.html --label jug.txt',
      says: 'for another can, with a page to print (on A4, Letter or A6) and a label for the jug',
    },
  ],
  about: [
    'Turns the blend into whole spoonfuls, drops, syringe marks or scale steps, chosen together so that every limit still holds, and prints the sheet. Text goes to the terminal; --html, --csv, --pdf and --label write files beside it.',
    'Where the tools cannot measure it, or no feed keeps every limit, the sheet of the nearest doses is printed, says what is missed, and the exit code is 3; so it is where --sure asks for more than any doses reach.',
  ],
  options: {
    can: {
      value: 'AMOUNT',
      says: 'how much to mix: "4 L", "1 US gal", or a can of the kit (default: the batch of the feed)',
    },
    date: { value: 'DATE', says: 'the day, as 2026-11-25 (default: a line to fill in)' },
    'reading-of-water': {
      value: 'READING',
      says: 'what the pen shows in the water alone, in mS/cm ("0.02", "20 µS/cm", "10 ppm" on your pen); the readings follow it',
    },
    sure: { value: 'SHARE', says: 'doses that keep the bands in this share of batches: 90%' },
    closest: { says: 'as close as possible to the aims instead of cheapest' },
    'at-most': { value: 'K', says: 'use at most this many products' },
    html: { value: 'FILE', says: 'write a page that prints on one sheet' },
    pdf: { value: 'FILE', says: 'write it as PDF (needs a browser on this machine)' },
    paper: {
      value: 'PAPER',
      says: 'a4, letter or a6, for --html and --pdf (default: the printer’s own; a4 for --pdf)',
    },
    csv: { value: 'FILE', says: 'write the steps as CSV' },
    label: { value: 'FILE', says: 'write a label for the jug: a page where the name ends in .html, else text' },
    json: { says: 'one JSON object instead of text (shape: velamen schema sheet)' },
    ...ON_A_FEED,
    ...SHELF_OPTIONS,
    ...METER_OPTIONS,
  },
  formats: false,
  async run(given, io) {
    const catalog = shippedCatalog();
    const collected = new Collected();
    const inputs = await feedInputs(given, io, catalog, collected);
    const kit: Kit = inputs.bench?.kit ?? { spoons: [] };
    const pen: Pen = inputs.bench?.pen ?? { reads: 'EC' };
    const can = collected.option(given, 'can', (text) => parseCan(text, kit, { field: '--can' }));
    const date = collected.option(given, 'date', (text) => parseDate(text, { field: '--date' })) ?? null;
    const water = collected.option(given, 'reading-of-water', (text) =>
      parseWaterReading(text, pen, { field: '--reading-of-water' }),
    );
    const paper = collected.option(given, 'paper', (text) => parsePaper(text, { field: '--paper' })) ?? null;
    const sure = collected.option(given, 'sure', (text) => parseSure(text, { field: '--sure' }));
    const atMost = collected.option(given, 'at-most', (text) => parseCount(text, { field: '--at-most' }));
    const celsius = temperature(given, collected);
    const requests = feedRequests(
      inputs,
      catalog,
      collected,
      given.flag('closest') ? 'closest' : 'cheapest',
      atMost,
    ).map(
      (request): FeedRequest => ({
        ...request,
        ...celsius,
        header: { ...request.header, batchLitres: can ?? request.header.batchLitres },
      }),
    );
    refuseUnclear(given, requests, collected);
    if (given.text('pdf') !== undefined && browserOf(io.env) === null) collected.add(noBrowser());
    const warnings = collected.settle();
    const shown: Shown[] = [];
    for (const request of requests) {
      shown.push(
        await sheetOf(request, kit, catalog, sure, {
          pen,
          date,
          ...(water === undefined ? {} : { waterMSPerCm: water }),
        }),
      );
    }
    const sheets = shown.flatMap(({ sheet }) => (sheet === null ? [] : [sheet]));
    if (sheets.length > 0) await writeFiles(sheets, paper, given, io);
    const textOf = (one: Shown): string =>
      one.sheet === null
        ? renderText(blendSheet(one.blend, inputs.pen), textOptions(io))
        : sheetText(pageOf(one.sheet), textOptions(io));
    const jsonOf = (one: Shown): unknown => (one.sheet === null ? blendJson(one.blend) : sheetJson(one.sheet));
    return {
      exit: shown.every(({ sheet, reached }) => sheet !== null && reached && measurable(sheet)) ? 0 : 3,
      text: given.flag('json') ? jsonText(jsonOf(shown[0]!)) : shown.map(textOf).join('\n\n'),
      warnings,
    };
  },
};

/** Every limit kept, with what stands in the kit. */
const measurable = (sheet: MixingSheet): boolean =>
  sheet.status === 'kept' && sheet.steps.every((step) => !step.borrowed);

/** A sheet; or, where there is no feed to measure out and no nearest one, what the blend says of that. */
type Shown = { sheet: MixingSheet; reached: boolean } | { sheet: null; reached: false; blend: BlendResult };

/** Blend, doses, sheet. Where no blend keeps every limit, the nearest one is measured out and says so. */
async function sheetOf(
  request: FeedRequest,
  kit: Kit,
  catalog: Catalog,
  sure: number | undefined,
  options: Parameters<typeof mixingSheet>[3],
): Promise<Shown> {
  const { result, plan, wished } = await dosesOfFeed(request, kit, catalog, { sure, offers: true });
  if (plan === null) return { sheet: null, reached: false, blend: result };
  const found = wished?.sureness ?? sureness(plan, plan.request, { known: productsKnown(catalog) });
  // doses that miss a limit by design keep it in no batch: nothing to be sure of
  const lines = plan.status === 'missed' && wished === null ? [] : surenessLines(found, plan.mix.elements, wished);
  const sheet = mixingSheet(
    plan,
    request,
    { status: result.status, notes: result.notes, proof: proofSentence(result.proof) },
    { ...options, sure: found, sureness: lines },
  );
  return { sheet, reached: wished === null || wished.status === 'reached' };
}

function refuseUnclear(given: Given, requests: readonly FeedRequest[], collected: Collected): void {
  const unsized = requests.filter((request) => request.header.batchLitres === null);
  if (unsized.length > 0) {
    collected.add(
      problem(
        'no-can',
        { field: '--can' },
        `no batch for ${unsized.map((request) => request.header.name).join(', ')}`,
        'how much to mix',
        'Say --can "4 L", or write batch: 4 L for the feed in bench.yaml.',
      ),
    );
  }
  oneFeedForJson(given.flag('json'), requests, collected);
  if (given.text('paper') !== undefined && given.text('html') === undefined && given.text('pdf') === undefined) {
    collected.add(
      problem('paper-alone', { field: '--paper' }, '--paper alone', '--html or --pdf with it', 'Add --html FILE.'),
    );
  }
}

async function writeFiles(sheets: readonly MixingSheet[], paper: Paper | null, given: Given, io: Io): Promise<void> {
  const pages = sheets.map(pageOf);
  const write = (name: string, text: (file: string) => string): void => {
    const file = given.text(name);
    if (file !== undefined) writeText(file, text(file), io.cwd);
  };
  write('html', () => sheetHtml(pages, paper));
  write('csv', () => sheets.map((sheet, i) => sheetCsv(sheet, pages[i]!)).join('\r\n'));
  write('label', (file) => (/\.html?$/i.test(file) ? labelHtml(sheets) : labelText(sheets)));
  const pdf = given.text('pdf');
  if (pdf !== undefined) await printPdf(sheetHtml(pages, paper ?? 'a4'), pdf, io);
}
