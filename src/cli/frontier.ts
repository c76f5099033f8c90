import { frontierOf } from '../desk/frontier.js';
import { frontierSheet } from '../report/frontier.js';
import { frontierJson } from '../report/json/frontier.js';
import { frontierSvg } from '../report/frontier-svg.js';
import { benchTexts } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import type { Io } from './io.js';
import { ofSheets } from './forms.js';
import { wishesOf } from './wishes.js';

/** `blend --frontier`: cost against closeness for each feed; its picture is the form `svg`, where there is a curve to draw. */
export async function drawFrontier(given: Given, io: Io): Promise<Outcome> {
  const { met, results, warnings } = await frontierOf(benchTexts(given, io), wishesOf(given));
  const [first] = results;
  const forms = ofSheets(frontierJson(first!), results.map(frontierSheet));
  const drawn = first?.status === 'made' ? { svg: () => frontierSvg(first) } : {};
  return { exit: met ? 0 : 3, forms: { ...forms, ...drawn }, warnings };
}
