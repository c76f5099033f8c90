import type * as z from 'zod';
import type { SeasonResult } from '../../year/season-types.js';
import type { seasonShape } from '../season-shapes.js';
import { seasonNoteSays } from '../says/season.js';
import { careJson } from './mix.js';
import { storageJson, supportJson } from './storage.js';

/** What `season --json` prints. */
export function seasonJson(result: SeasonResult): z.infer<typeof seasonShape> {
  const { notes, cautions, feeds, climate, mixes, months, products, orders, events, storage, ...told } = result;
  const status = notes.some(({ kind }) => kind === 'no doses' || kind === 'missed') ? 'short' : 'planned';
  return {
    schema: 'velamen.season/1',
    status,
    ...told,
    climate: { ...climate, months: climate.months.map((month) => ({ ...month, why: [...month.why] })) },
    feeds: feeds.map((feed) => ({
      ...feed,
      spans: feed.spans.map((span) => ({ ...span, state: stateJson(span.state) })),
      flush: { ...feed.flush, support: supportJson(feed.flush.support) },
    })),
    mixes: mixes.map((mix) => ({ ...mix, feeds: mix.feeds.map((feed) => ({ ...feed, parts: { ...feed.parts } })) })),
    months,
    products,
    orders,
    events,
    storage: storageJson(storage),
    notes: notes.map(seasonNoteSays),
    ...careJson(cautions),
  };
}

type State = SeasonResult['feeds'][number]['spans'][number]['state'];

const stateJson = (state: State) => (state.kind === 'other' ? { ...state, feeds: [...state.feeds] } : { ...state });
