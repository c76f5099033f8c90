import { join } from 'node:path';
import { reach } from '../blend/reach.js';
import type { FeedRequest } from '../feed/request.js';
import { problem } from '../problem.js';
import { reachAllJson, reachJson } from '../report/json/reach.js';
import { reachAllSheet } from '../report/reach-all.js';
import { reachAgainstSheet, reachSheet } from '../report/reach.js';
import { closeShelf } from '../label/close.js';
import { Collected } from './collect.js';
import type { Command } from './command.js';
import { feedInputs, feedRequests } from './feed-input.js';
import { FEED_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { isFolder } from './files.js';
import { readShelf } from './shelf-input.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';

/** How far each element can be moved on this shelf, and what holds it back. */
export const reachCommand: Command = {
  name: 'reach',
  summary: 'what the shelf can and cannot reach, element by element',
  examples: [
    {
      line: 'velamen reach --bench examples/what-the-shelf-reaches --feed winter',
      says: 'the lowest and highest of each element, and what holds it back',
    },
    {
      line: 'velamen reach --bench mine --feed moss --against neighbours',
      says: 'two shelves side by side for the same feed',
    },
  ],
  about: [
    'For each element with a band: the lowest and highest mg/L that the shelf can give while every other limit holds. Exit code 3 means that an element lies out of reach, or that not all limits can be kept at once.',
  ],
  options: {
    ...FEED_OPTIONS,
    ...SHELF_OPTIONS,
    all: { says: 'every feed of the bench, with an overview first; with --json one object for all of them' },
    against: { value: 'DIR', says: 'another bench, or a shelf file, to set beside this one for the same feed' },
  },
  async run(given, io) {
    const catalog = shippedCatalog();
    const collected = new Collected();
    const inputs = await feedInputs(given, io, catalog, collected);
    const requests = feedRequests(inputs, catalog, collected);
    const against = given.text('against');
    const other =
      against === undefined
        ? undefined
        : readShelf(isFolder(against, io.cwd) ? join(against, 'shelf.csv') : against, io, collected);
    const all = given.flag('all');
    for (const name of all ? (['feed', 'plants', 'against'] as const) : []) {
      if (given.text(name) === undefined) continue;
      collected.add(
        problem(
          'all-or-one',
          { field: '--all' },
          `--all and --${name}`,
          'one of them',
          `Leave out --all or --${name}.`,
        ),
      );
    }
    if (requests.length > 1 && !all && (given.flag('json') || other)) {
      const names = requests.map((request) => request.header.name).join(', ');
      collected.add(
        problem(
          'one-feed',
          { field: '--feed' },
          `${requests.length} feeds`,
          `one feed for ${other ? '--against' : '--json'}`,
          `Name one with --feed: ${names}.`,
        ),
      );
    }
    const warnings = collected.settle();
    const results = [];
    for (const request of requests) results.push(await reach(request, inputs.shelf.name));
    const met = results.every(
      (result) => result.status === 'together' && result.elements.every((line) => line.reachable),
    );
    if (other) {
      const mine = results[0]!;
      const theirs = await reach(
        { ...requests[0]!, shelf: await closeShelf(other.products) } satisfies FeedRequest,
        other.name,
      );
      return {
        exit: met ? 0 : 3,
        json: { ...reachJson(mine), against: reachJson(theirs) },
        sheets: [reachAgainstSheet(mine, theirs)],
        warnings,
      };
    }
    const names = inputs.waters.map((w) => w.name).join(' and ');
    const water = inputs.waters.length > 1 ? `${names}, in any shares` : names;
    const sheets = results.map((result) => reachSheet(result, water));
    if (!all) return { exit: met ? 0 : 3, json: reachJson(results[0]!), sheets, warnings };
    return { exit: met ? 0 : 3, json: reachAllJson(results), sheets: [reachAllSheet(results), ...sheets], warnings };
  },
};
