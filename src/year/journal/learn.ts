import { type Learned, PEN_KEY } from '../../chance/learned.js';
import { inverse } from '../../meter/matrix.js';
import { SPREADS } from '../../meter/spreads.js';
import { type Lesson, type LessonRow, PEN_PRIOR } from './lesson.js';

/** A jar that was opened anew: its label is kept by another filling. */
export interface NewJar {
  /** Behind which entry. */
  entry: number;
  id: string;
}

/**
 * What good batches tell of jars, spoons and pen: the predicted ranges are the prior, normal and independent; each reading is a weighted
 * sum of them with the error of its own day (doses, filling, dip, last digit), and is combined with what is known by then (Kalman 1960,
 * which for constants is Bayes' rule for normal errors). A new jar widens its product by what labels leave open.
 * @param feed whose batches are counted
 */
export function learn(lessons: readonly Lesson[], jars: readonly NewJar[], feed: string): Learned {
  const keys = [...new Set(lessons.flatMap(({ items }) => items.map(({ key }) => key))), PEN_KEY];
  const known = new Map(lessons.flatMap(({ items }) => items.map((item) => [item.key, item] as const)));
  const mean = keys.map(() => 0);
  const covariance = keys.map((key, k) =>
    keys.map((_, l) => (k === l ? (known.get(key)?.prior ?? PEN_PRIOR) ** 2 : 0)),
  );
  const waiting = [...jars];
  for (const lesson of lessons) {
    while (waiting.length > 0 && waiting[0]!.entry < lesson.entry) {
      const { id } = waiting.shift()!;
      keys.forEach((key, k) => {
        const item = known.get(key);
        if (item?.id === id) covariance[k]![k]! += item.jar ** 2;
      });
    }
    taught(mean, covariance, lesson, keys);
  }
  const own = lessons.filter((lesson) => lesson.feed === feed);
  return { keys, mean, covariance, batches: own.length, from: own[0]?.date ?? '', to: own.at(-1)?.date ?? '' };
}

/** Combines what is known with the readings of one batch, in place. */
function taught(mean: number[], covariance: number[][], { items, rows }: Lesson, keys: readonly string[]): void {
  const places = items.map(({ key }) => keys.indexOf(key));
  const along = rows.map(({ slopes, predicted }) => {
    const row = keys.map((key) => (key === PEN_KEY ? predicted : 0));
    for (const [i, place] of places.entries()) row[place]! += slopes[i]!;
    return row;
  });
  const spread = along.map((row) => covariance.map((line) => line.reduce((sum, c, k) => sum + c * row[k]!, 0)));
  const sums = rows.map((a, j) =>
    rows.map((b, l) => ownError(a, b, j === l, items) + along[j]!.reduce((sum, x, k) => sum + x * spread[l]![k]!, 0)),
  );
  const { inverse: precision } = inverse(sums);
  const off = rows.map(
    ({ read, predicted }, j) => read - predicted - along[j]!.reduce((sum, x, k) => sum + x * mean[k]!, 0),
  );
  const gains = mean.map((_, k) =>
    rows.map((__, j) => rows.reduce((sum, ___, l) => sum + spread[l]![k]! * precision[l]![j]!, 0)),
  );
  for (const [k, gain] of gains.entries()) {
    mean[k]! += gain.reduce((sum, g, j) => sum + g * off[j]!, 0);
    for (const l of mean.keys()) covariance[k]![l]! -= gain.reduce((sum, g, j) => sum + g * spread[j]![l]!, 0);
  }
}

/** Covariance of two readings of one batch by what is new with it: doses, filling, and for each reading its dip and last digit. */
function ownError(a: LessonRow, b: LessonRow, same: boolean, items: Lesson['items']): number {
  const doses = items.reduce((sum, { fresh }, i) => sum + a.slopes[i]! * b.slopes[i]! * fresh ** 2, 0);
  const filling = a.volume * b.volume * SPREADS.water ** 2;
  const dip = same ? (a.predicted * SPREADS.penEach) ** 2 + SPREADS.lastDigit ** 2 : 0;
  return doses + filling + dip;
}
