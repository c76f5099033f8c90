import { checkPenWithStandard } from '../desk/check-pen.js';
import { densityOnShelf } from '../desk/density-on-shelf.js';
import { judgeReading } from '../desk/judge-reading.js';
import { weighSpoonsOnScale } from '../desk/weigh-on-scale.js';
import { weighSpoonByPen } from '../desk/weigh-spoon.js';
import { changeText } from '../files/index.js';
import type { SpoonWeight } from '../meter/index.js';
import type { Problem } from '../problem.js';
import { calibrateJson, meterJson, standardJson, weighedJson } from '../report/json/meter.js';
import { meterSheet } from '../report/meter.js';
import { calibrateSheet, standardSheet, weighedSheet } from '../report/meter-tools.js';
import { benchTexts, shelfPath } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';
import { wishesOf } from './wishes.js';

/** `meter --reading`: a reading judged, a can rescued. */
export async function judged(given: Given, io: Io, problems: readonly Problem[]): Promise<Outcome> {
  const files = benchTexts(given, io, problems);
  const { met, result, warnings } = await judgeReading(files, wishesOf(given));
  return { exit: met ? 0 : 3, forms: ofSheets(meterJson(result), [meterSheet(result)]), warnings };
}

/** `meter --calibrate`: a spoon weighed by the pen; --save keeps it on the shelf. */
export async function calibrate(given: Given, io: Io, problems: readonly Problem[]): Promise<Outcome> {
  const files = benchTexts(given, io, problems);
  const { result: weighed, warnings } = await weighSpoonByPen(files, wishesOf(given));
  const result = { ...weighed, saved: saved(given, io, weighed) };
  return { exit: 0, forms: ofSheets(calibrateJson(result), [calibrateSheet(result)]), warnings };
}

/** `meter --weigh`: spoons weighed on a scale; --save keeps it on the shelf. */
export async function weigh(given: Given, io: Io, problems: readonly Problem[]): Promise<Outcome> {
  const files = benchTexts(given, io, problems);
  const { result: weighed, warnings } = await weighSpoonsOnScale(files, wishesOf(given));
  const result = { ...weighed, saved: saved(given, io, weighed) };
  return { exit: 0, forms: ofSheets(weighedJson(result), [weighedSheet(result)]), warnings };
}

/** The shelf that it was written onto, null without --save. */
function saved({ words }: Given, io: Io, weighed: SpoonWeight): string | null {
  if (!words.save) return null;
  const path = shelfPath(words);
  changeText(path, (text) => densityOnShelf({ name: path, text }, weighed.id, weighed), io.cwd);
  return path;
}

/** `meter --standard`: the pen itself checked. */
export function standard(given: Given, problems: readonly Problem[]): Outcome {
  const { result, warnings } = checkPenWithStandard(wishesOf(given), problems);
  return { exit: 0, forms: ofSheets(standardJson(result), [standardSheet(result)]), warnings };
}
