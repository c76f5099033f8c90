import { frontierOf } from '../desk/frontier.js';
import { type Problem, problem } from '../problem.js';
import { frontierSheet } from '../report/frontier.js';
import { frontierJson } from '../report/json/frontier.js';
import { frontierSvg } from '../report/frontier-svg.js';
import { benchTexts } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import type { Io } from './io.js';
import { wishesOf } from './wishes.js';
import { writeText } from './write-file.js';

/** `blend --frontier`: cost against closeness for each feed, and its picture with --svg. */
export async function drawFrontier(given: Given, io: Io): Promise<Outcome> {
  const { met, results, warnings } = await frontierOf(benchTexts(given, io), wishesOf(given));
  const svg = given.text('svg');
  const [first] = results;
  if (svg !== undefined && first?.status === 'made') writeText(svg, frontierSvg(first), io.cwd);
  return { exit: met ? 0 : 3, json: frontierJson(first!), sheets: results.map(frontierSheet), warnings };
}

/** There is no other picture. */
export function svgAlone(given: Given): Problem[] {
  if (given.text('svg') === undefined) return [];
  const fix = 'Add --frontier, or leave out --svg.';
  return [problem('svg-of-frontier', { field: '--svg' }, '--svg alone', '--frontier with it', fix)];
}
