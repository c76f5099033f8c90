import { oneForBench } from '../desk/one.js';
import { oneJson } from '../report/json/one.js';
import { oneSheet } from '../report/one.js';
import { benchTexts } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';
import { wishesOf } from './wishes.js';

/** `blend --one`: one mix for every feed of the bench, and how each is made of it. */
export async function blendOne(given: Given, io: Io): Promise<Outcome> {
  const { met, result, warnings } = await oneForBench(benchTexts(given, io), wishesOf(given));
  return { exit: met ? 0 : 3, forms: ofSheets(oneJson(result), [oneSheet(result)]), warnings };
}
