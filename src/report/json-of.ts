import { adviceJson, assessJson } from './json/assess.js';
import { blendJson } from './json/blend.js';
import { buyJson, substitutesJson } from './json/buy.js';
import { buyOneJson } from './json/buy-one.js';
import { checkJson } from './json/check.js';
import { concentrateJson } from './json/concentrate.js';
import { frontierJson } from './json/frontier.js';
import { journalCostJson, journalEntryJson, journalJson, journalPotJson, journalStockJson } from './json/journal.js';
import { labelsJson } from './json/labels.js';
import { calibrateJson, meterJson, standardJson, weighedJson } from './json/meter.js';
import { oneJson } from './json/one.js';
import { programmesJson } from './json/programmes.js';
import { reachAllJson, reachJson } from './json/reach.js';
import { seasonJson } from './json/season.js';
import { sheetJson } from './json/sheet.js';
import { startJson } from './json/start.js';
import type { Results } from './results.js';
import { refuseUnlike } from '../wrong-type.js';
import { named } from './named.js';

/**
 * A result as the object that the command line prints with `--json`: `jsonOf('blend', result)`. Its shape is `jsonSchema('blend')`, its
 * `schema` field names it with its version.
 */
export const jsonOf = <Name extends keyof Results>(name: Name, result: Results[Name]): object => {
  refuseUnlike({ name, result }, { name: 'text', result: 'object' });
  return named(JSONS, name)(result);
};

const JSONS: { [Name in keyof Results]: (result: Results[Name]) => object } = {
  labels: labelsJson,
  start: startJson,
  check: checkJson,
  blend: blendJson,
  one: oneJson,
  frontier: frontierJson,
  reach: reachJson,
  'reach-all': reachAllJson,
  buy: buyJson,
  'buy-one': buyOneJson,
  substitutes: substitutesJson,
  programmes: programmesJson,
  assess: assessJson,
  advice: adviceJson,
  concentrate: (result) => concentrateJson(result),
  sheet: sheetJson,
  season: seasonJson,
  meter: meterJson,
  calibrate: calibrateJson,
  weighed: weighedJson,
  standard: standardJson,
  journal: journalJson,
  'journal-entry': journalEntryJson,
  'journal-stock': journalStockJson,
  'journal-cost': journalCostJson,
  'journal-pot': journalPotJson,
};
