import { adviceSheet } from './advice.js';
import { assessSheet } from './assess.js';
import { blendSheet } from './blend.js';
import { buySheet } from './buy.js';
import { buyOneSheet } from './buy-one.js';
import { checkSheet } from './check.js';
import { concentrateSheet } from './concentrate.js';
import { frontierSheet } from './frontier.js';
import { journalCostSheet, journalEntrySheet, journalSheet, journalStockSheet } from './journal.js';
import { journalPotSheet } from './journal-pots.js';
import { labelsSheet } from './labels.js';
import { calibrateSheet, standardSheet, weighedSheet } from './meter-tools.js';
import { meterSheet } from './meter.js';
import type { PenScale } from './mix.js';
import { oneSheet } from './one.js';
import { programmesSheet } from './programmes.js';
import { reachAllSheet } from './reach-all.js';
import { reachSheet } from './reach.js';
import type { Results } from './results.js';
import { seasonSheet } from './season.js';
import { sheetReport } from './sheet-page/index.js';
import type { Sheet } from './sheet.js';
import { startSheet } from './start.js';
import { substitutesSheet } from './substitutes.js';
import { refuseUnlike } from '../wrong-type.js';
import { named } from './named.js';

/** What a report may say besides its result. */
export interface ReportOptions {
  /** Readings are told for this pen too: `EC`, or the ppm that it shows per mS/cm. */
  pen?: PenScale | null;
  /** Everything about what it costs to insist, where the blend was asked for it. */
  prices?: boolean;
  /** What the water of a reach is called. */
  water?: string;
  /** The command line that gives the blend of an advice at the same strength. */
  command?: string;
}

/**
 * A result as a report, `reportOf('blend', result, { pen: 500 })`: a title and blocks (paragraphs, facts, lists, tables, bars), which
 * `renderText`, `renderHtml` and `renderCsv` turn into the command line's text, page and tables.
 */
export const reportOf = <Name extends keyof Results>(
  name: Name,
  result: Results[Name],
  options: ReportOptions = {},
): Sheet => {
  refuseUnlike({ name, result, options }, { name: 'text', result: 'object', options: 'object' });
  return named(REPORTS, name)(result, options);
};

const REPORTS: { [Name in keyof Results]: (result: Results[Name], options: ReportOptions) => Sheet } = {
  labels: labelsSheet,
  start: startSheet,
  check: checkSheet,
  blend: (result, { pen, prices }) => blendSheet(result, pen, prices),
  one: oneSheet,
  frontier: frontierSheet,
  reach: (result, { water = '' }) => reachSheet(result, water),
  'reach-all': reachAllSheet,
  buy: buySheet,
  'buy-one': buyOneSheet,
  substitutes: substitutesSheet,
  programmes: programmesSheet,
  assess: (result, { pen }) => assessSheet(result, pen),
  advice: (result, { pen, command = 'velamen blend' }) => adviceSheet(result, command, pen),
  concentrate: (result) => concentrateSheet(result),
  sheet: sheetReport,
  season: seasonSheet,
  meter: meterSheet,
  calibrate: calibrateSheet,
  weighed: weighedSheet,
  standard: standardSheet,
  journal: journalSheet,
  'journal-entry': journalEntrySheet,
  'journal-stock': journalStockSheet,
  'journal-cost': journalCostSheet,
  'journal-pot': journalPotSheet,
};
