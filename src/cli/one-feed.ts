import type { FeedRequest } from '../feed/request.js';
import { problem } from '../problem.js';
import type { Collected } from './collect.js';

/** JSON holds one object for one feed: refuses more, naming them. */
export function oneFeedForJson(
  json: boolean,
  requests: readonly Pick<FeedRequest, 'header'>[],
  collected: Collected,
): void {
  if (!json || requests.length <= 1) return;
  const names = requests.map((request) => request.header.name).join(', ');
  collected.add(
    problem(
      'one-feed-in-json',
      { field: '--feed' },
      `${requests.length} feeds`,
      'one feed for --json',
      `Name one with --feed: ${names}.`,
    ),
  );
}
