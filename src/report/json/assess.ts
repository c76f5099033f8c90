import type * as z from 'zod';
import { isAboveWater } from '../../advice/findings.js';
import { strengthText } from '../../advice/own-feed.js';
import type { AdviceResult, AssessResult, ChangeTold, OwnMatch, PartByPen } from '../../advice/types.js';
import type { GradedMiss } from '../../blend/nearest-doses.js';
import { changeSays, habitSays, verdictOf } from '../says/habit.js';
import type { adviceShape } from '../advice-shapes.js';
import type { assessShape } from '../schemas.js';
import { adviceNeedSays, adviceNoteSays, assessNoteSays, limitedSays, senseSays } from '../says/advice.js';
import { careJson, missesJson, mixAlone } from './mix.js';

/** What `assess --json` prints of a recipe. */
export function assessJson(result: AssessResult): z.infer<typeof assessShape> {
  const { status, recipe, volumeLitres, notes, cautions } = result;
  return {
    schema: 'velamen.assess/1',
    status,
    ...mixAlone(result),
    feed: result.status === 'no programme' ? null : result.feed,
    recipe,
    volumeLitres,
    byPen: result.byPen.map(byPenJson),
    verdict: result.status === 'no programme' ? null : { is: verdictOf(result.graded), says: habitSays(result) },
    misses: result.status === 'no programme' ? [] : missesJson(result.misses),
    lacks: result.status === 'no programme' ? [] : gradedJson(result.graded),
    change: result.status === 'no programme' ? null : result.change && changeJson(result.change),
    mostShare: result.status === 'no programme' ? null : result.mostShare,
    notes: notes.map(assessNoteSays),
    ...careJson(cautions),
  };
}

const gradedJson = (graded: readonly GradedMiss[]) =>
  graded.map(({ grade, ...miss }) => ({ ...missesJson([miss])[0]!, grade }));

const changeJson = ({ graded, ec: { mSPerCm, low, high }, ...change }: ChangeTold) => ({
  ...change,
  says: changeSays({ graded, ec: { mSPerCm, low, high, cap: null }, ...change }),
  lacks: gradedJson(graded),
  reading: { mSPerCm, low, high },
});

const byPenJson = ({ told: { by, mSPerCm, ppm, scale }, ...part }: PartByPen) => ({
  ...part,
  told: { by, mSPerCm, ppm, scale },
});

/** What `assess --json` prints of advice in words. */
export function adviceJson(result: AdviceResult): z.infer<typeof adviceShape> {
  const { status, certainty, advice, atMost, notes, needed, cautions } = result;
  return {
    schema: 'velamen.advice/1',
    status,
    certainty,
    advice,
    readings: result.readings.map(({ sense, ...reading }) => ({
      says: senseSays(sense, atMost),
      ...reading,
      ...(isAboveWater(sense) ? { aboveWater: true as const } : {}),
    })),
    own:
      result.status === 'no feed'
        ? null
        : {
            ...result.own,
            matches: result.own.matches.map(
              (match) => match && { low: matchJson(match.low), high: matchJson(match.high) },
            ),
          },
    notes: notes.map(adviceNoteSays),
    needed: needed.map(adviceNeedSays),
    ...careJson(cautions),
  };
}

const matchJson = ({ wanted, reached, percent, limitedBy, can: _, ...match }: OwnMatch) => ({
  wanted,
  reached,
  percent,
  strength: `${strengthText(percent)} %`,
  ...match,
  limitedBy: limitedBy && limitedSays(limitedBy),
});
