import { frontier } from '../blend/frontier.js';
import type { FeedRequest } from '../feed/request.js';
import { type Problem, problem } from '../problem.js';
import { frontierSheet } from '../report/frontier.js';
import { frontierJson } from '../report/json/frontier.js';
import { frontierSvg } from '../report/frontier-svg.js';
import type { Given, Outcome } from './command.js';
import type { Io } from './io.js';
import { writeText } from './write-file.js';

/** `blend --frontier`: cost against closeness for each feed, and its picture with --svg. */
export async function frontierOutcome(
  given: Given,
  io: Io,
  requests: readonly FeedRequest[],
  warnings: readonly Problem[],
): Promise<Outcome> {
  const results = [];
  for (const request of requests) results.push(await frontier(request));
  const met = results.every((result) => result.status === 'made');
  const svg = given.text('svg');
  const [first] = results;
  if (svg !== undefined && first?.status === 'made') writeText(svg, frontierSvg(first), io.cwd);
  return { exit: met ? 0 : 3, json: frontierJson(first!), sheets: results.map(frontierSheet), warnings };
}

/** Options of `blend` that cannot stand together, or that need another. */
export function clashes(given: Given, feeds: readonly string[]): Problem[] {
  const problems: Problem[] = [];
  const clash = (a: string, b: string, why: string): void => {
    problems.push(
      problem('options-clash', { field: `--${a}` }, `--${a} and --${b}`, why, `Leave out --${a} or --${b}.`),
    );
  };
  const goes = (name: string): boolean => given.named().includes(name);
  for (const other of ['closest', 'at-most', 'prices']) {
    if (goes('frontier') && goes(other)) clash('frontier', other, 'the trade-off by itself');
  }
  for (const other of ['closest', 'at-most']) {
    if (goes('prices') && goes(other)) clash('prices', other, 'prices of the cheapest blend of the whole shelf');
  }
  if (goes('svg') && !goes('frontier')) {
    problems.push(
      problem(
        'svg-of-frontier',
        { field: '--svg' },
        '--svg alone',
        '--frontier with it',
        'Add --frontier, or leave out --svg.',
      ),
    );
  }
  if (goes('svg') && goes('frontier') && feeds.length > 1) {
    problems.push(
      problem(
        'one-feed-in-svg',
        { field: '--feed' },
        `${feeds.length} feeds`,
        'one feed for --svg',
        `Name one with --feed: ${feeds.join(', ')}.`,
      ),
    );
  }
  return problems;
}
