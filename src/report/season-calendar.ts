import { restSays } from '../programme/programme.js';
import type { SeasonEvent, SeasonResult } from '../year/season-types.js';
import { type IcsEvent, renderIcs } from './ics.js';
import { daySays, doseSays, flushSays, packsSay } from './says/season.js';
import { listed } from './says/listed.js';
import { volumeText } from './volume.js';
import { figure, money } from './figures.js';

/** The dates of a year of feed as a calendar file: mixing, flushing, ordering, and when a feed stops. */
export const seasonCalendar = (result: SeasonResult): string =>
  renderIcs(
    result.bench === '' ? 'Feed' : `Feed: ${result.bench}`,
    result.from,
    result.events.map((event) => dateOf(event, result)),
  );

function dateOf(event: SeasonEvent, result: SeasonResult): IcsEvent {
  const { day, everyWeeks, times } = event;
  const { summary, description, what } = toldOf(event, result);
  return { identity: [result.bench, event.kind, what, day].join('\n'), day, everyWeeks, times, summary, description };
}

function toldOf(event: SeasonEvent, result: SeasonResult): { what: string; summary: string; description: string } {
  switch (event.kind) {
    case 'mix': {
      const mix = result.mixes[event.mix]!;
      const names = event.perFeed.map(({ name }) => name);
      const batches = event.litres / mix.batchLitres;
      const cans = Math.abs(batches - 1) < 1e-9 ? '' : ` (${figure(batches)} times the doses below)`;
      const diluted = mix.feeds.filter(({ name, parts }) => parts.water > 0 && names.includes(name));
      return {
        what: JSON.stringify(names),
        summary: `Mix ${volumeText(event.litres)} for ${listed(names)}`,
        description: [
          `For ${volumeText(mix.batchLitres)}${cans}: ${doseSays(mix)}.`,
          ...diluted.map(({ name, parts }) => `${name}: ${parts.mix} to ${parts.water} of water.`),
          'The mixing sheet tells the order and the readings. The label comes first.',
        ].join('\n'),
      };
    }
    case 'flush': {
      const { flush } = result.feeds.find(({ name }) => name === event.feed)!;
      return {
        what: event.feed,
        summary: `Flush ${event.feed} with plain water`,
        description: `${flushSays(flush)}. Let it drain, then feed as usual.`,
      };
    }
    case 'order': {
      const order = result.orders[event.order]!;
      const { id, name, needed, cost } = order;
      const price = cost === null ? '' : ` About ${money(cost, result.currency)}.`;
      return {
        what: `${id} ${needed}`,
        summary: `Order ${name === '' ? id : name}: ${packsSay(order)}`,
        description: `Needed by ${daySays(needed)}.${price}`,
      };
    }
    case 'rest':
      return {
        what: event.feed,
        summary: `No feed for ${event.feed}`,
        description: event.rest === null ? 'Plain water, as planned.' : `Plain water ${restSays(event.rest)}.`,
      };
    default:
      return event satisfies never;
  }
}
