import type { ReachResult } from '../feed/results.js';
import { beyondReach } from './reach.js';
import { paragraph, type Sheet, table } from './sheet.js';

/** All feeds of a bench at a glance. */
export function reachAllSheet(results: readonly ReachResult[]): Sheet {
  const rows = results.map((result) => {
    const { feed } = result;
    const beyond = beyondReach(result);
    const whole = result.elements.every((line) => line.reachable);
    const answer = result.status === 'open' ? 'NOT PROVED' : whole ? 'yes' : 'NO';
    const why = whole ? '' : beyond.length > 0 ? `out of reach: ${beyond.join(', ')}` : 'its limits conflict';
    return [feed.name, `${feed.plants} in ${feed.medium}, ${feed.phase}`, feed.strength, answer, why];
  });
  const can = rows.filter((row) => row[3] === 'yes').length;
  return {
    title: `What ${results[0]?.shelf ?? 'the shelf'} can feed`,
    blocks: [
      table(['feed', 'for', '>strength', 'can', ''], rows),
      paragraph(`${can} of ${rows.length} feeds can be mixed from this shelf.`, can === rows.length ? 'good' : 'bad'),
    ],
  };
}
