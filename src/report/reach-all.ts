import type { ReachResult } from '../feed/results.js';
import { reachAnswer } from './says/reach.js';
import { paragraph, type Sheet, table } from './sheet.js';

/** All feeds of a bench at a glance. */
export function reachAllSheet(results: readonly ReachResult[]): Sheet {
  const rows = results.map((result) => {
    const { feed } = result;
    const answer = result.proof.unfinished
      ? 'NOT FINISHED'
      : { open: 'NOT PROVED', together: 'yes', apart: 'NO' }[result.status];
    return [
      feed.name,
      `${feed.plants} in ${feed.medium}, ${feed.phase}`,
      feed.strength,
      answer,
      reachAnswer(result).clause.replace(' on this shelf', ''),
    ];
  });
  const can = rows.filter((row) => row[3] === 'yes').length;
  return {
    title: `What ${results[0]?.shelf ?? 'the shelf'} can feed`,
    blocks: [
      table(['feed', 'for', '>strength', 'can', 'its aims'], rows),
      paragraph(`${can} of ${rows.length} feeds can be mixed from this shelf.`, can === rows.length ? 'good' : 'bad'),
    ],
  };
}
