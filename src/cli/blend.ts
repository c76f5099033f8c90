import { blendFeeds } from '../desk/blend.js';
import { blendSheet } from '../report/blend.js';
import { blendJson } from '../report/json/blend.js';
import { benchTexts } from './bench-texts.js';
import type { Command } from './command.js';
import { FEED_OPTIONS, METER_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { drawFrontier, svgAlone } from './frontier.js';
import { listProgrammes } from './programmes.js';
import { wishesOf } from './wishes.js';

/** The cheapest, or closest, feed from what stands on the shelf, with its proof. */
export const blendCommand: Command = {
  name: 'blend',
  summary: 'the cheapest (or closest) feed from your shelf, with its proof',
  examples: [
    {
      line: 'velamen blend --plants phalaenopsis --medium sphagnum --shelf shelf.csv --mix "4 L"',
      says: 'moth orchids in moss, four litres, from the products in shelf.csv',
    },
    {
      line: 'velamen blend --bench examples/moss-without-ammonium',
      says: 'every feed of a bench, with its own water, rules and pen',
    },
  ],
  about: [
    'Finds the mix that keeps every band, rule, label ceiling and the stock on hand for the least money, and proves that no cheaper one exists. Where none keeps them all (exit code 3) it says which limits conflict, what would help, and the nearest mix.',
    'Options override what the bench says about a feed; --rule and --nh4 are added to its rules.',
  ],
  options: {
    ...FEED_OPTIONS,
    ...SHELF_OPTIONS,
    ...METER_OPTIONS,
    closest: { says: 'come as close as possible to the aims, and only then look at the price' },
    'at-most': { value: 'K', says: 'use at most this many products' },
    prices: { says: 'everything about what it costs to insist: each limit that binds, each product used or left out' },
    frontier: {
      says: 'cost against closeness instead: every vertex (corner) between the closest and the cheapest mix',
    },
    svg: { value: 'FILE', says: 'with --frontier: draw it into this file' },
    programmes: { says: 'list the programmes (plants, medium, phase) instead' },
  },
  async run(given, io) {
    if (given.flag('programmes')) return listProgrammes(given);
    if (given.flag('frontier')) return drawFrontier(given, io);
    const files = benchTexts(given, io, svgAlone(given));
    const { met, results, pen, warnings } = await blendFeeds(files, wishesOf(given));
    return {
      exit: met ? 0 : 3,
      json: blendJson(results[0]!),
      sheets: results.map((result) => blendSheet(result, pen, given.flag('prices'))),
      warnings,
    };
  },
};
