import type { Batch, PenUse } from './batch.js';
import type { Hypothesis } from './hypotheses.js';
import { distanceOf, type Point, unsurprising, type Weighed } from './likelihood.js';
import type { Cause } from './cause.js';
import { causeWords, checkWords } from './cause-words.js';

/** Half as well as the best is too close to call. */
const TIE = 0.5;
/** What is less likely than this is not worth a line. */
const WORTH_A_LINE = 0.005;

/** Causes with all their forms taken together, likeliest first. */
export function causesOf({ batch, points, readings, pen }: Weighed): Cause[] {
  const grouped = new Map<string, Point[]>();
  for (const point of points) {
    if (point.hypothesis.kind === 'none') continue;
    const { cause } = point.hypothesis;
    grouped.set(cause, [...(grouped.get(cause) ?? []), point]);
  }
  const seen = readings.map((r) => r.mSPerCm);
  const causes = [...grouped.values()].map((group) => causeOf(batch, pen, group, seen));
  causes.sort((a, b) => b.probability - a.probability);
  const best = causes[0]?.probability ?? 0;
  return causes
    .filter((cause, i) => i < 2 || cause.probability >= WORTH_A_LINE)
    .map((cause, i) => ({ ...cause, asWell: i > 0 && cause.explains && cause.probability >= TIE * best }));
}

function causeOf(batch: Batch, pen: PenUse, group: readonly Point[], seen: readonly number[]): Cause {
  const probability = group.reduce((sum, point) => sum + point.probability, 0);
  const ordered = [...group].sort((a, b) => a.value - b.value);
  const at = (share: number): number => {
    let passed = 0;
    for (const point of ordered) {
      passed += point.probability;
      if (passed >= share * probability) return point.value;
    }
    return ordered.at(-1)!.value;
  };
  const value = { likely: at(0.5), low: at(0.05), high: at(0.95) };
  const variants = new Map<Hypothesis['variant'] | null, number>();
  for (const { hypothesis, probability: p } of group)
    variants.set(hypothesis.variant ?? null, (variants.get(hypothesis.variant ?? null) ?? 0) + p);
  const [variant] = [...variants].sort((a, b) => b[1] - a[1])[0]!;
  // a settled form (forgotten, twice) has its own figure
  if (variant !== null && variant !== undefined) {
    const own = group.filter((p) => p.hypothesis.variant === variant).sort((a, b) => b.probability - a.probability);
    value.likely = own[0]!.value;
    value.low = Math.min(value.low, value.likely);
    value.high = Math.max(value.high, value.likely);
  }
  const { hypothesis } = group[0]!;
  const best = [...group].sort((a, b) => b.probability - a.probability)[0]!;
  const kind = hypothesis.kind as Cause['kind'];
  const named = { kind, variant: variant ?? null, value, item: hypothesis.item, other: hypothesis.other };
  return {
    cause: hypothesis.cause,
    kind,
    id: hypothesis.item === undefined || kind === 'swap' ? null : batch.items[hypothesis.item]!.product.id,
    variant: variant ?? null,
    value,
    probability,
    explains: unsurprising(distanceOf(best, seen), seen.length),
    asWell: false,
    words: causeWords(named, batch, pen),
    check: checkWords(named, batch),
  };
}
