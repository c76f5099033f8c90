import { type Cause, type Fault, NO_FAULT, type Variant } from './cause.js';
import { distanceOf, type Point, unsurprising, type Weighed } from './likelihood.js';

/** Half as well as the best is too close to call. */
const TIE = 0.5;
/** What is less likely than this is not worth a line. */
const WORTH_A_LINE = 0.005;

/** Causes with all their forms taken together, likeliest first. */
export function causesOf({ points, readings }: Weighed): Cause[] {
  const grouped = new Map<string, Point[]>();
  for (const point of points) {
    const { cause } = point.hypothesis;
    if (cause !== NO_FAULT) grouped.set(cause, [...(grouped.get(cause) ?? []), point]);
  }
  const seen = readings.map((r) => r.mSPerCm);
  const causes = [...grouped.values()].map((group) => causeOf(group, seen));
  causes.sort((a, b) => b.probability - a.probability);
  const best = causes[0]?.probability ?? 0;
  return causes
    .filter((cause, i) => i < 2 || cause.probability >= WORTH_A_LINE)
    .map((cause, i) => ({ ...cause, asWell: i > 0 && cause.explains && cause.probability >= TIE * best }));
}

function causeOf(group: readonly Point[], seen: readonly number[]): Cause {
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
  const variant = likeliestVariant(group);
  // a settled form (forgotten, twice) has its own figure
  if (variant !== null) {
    const own = group.filter((p) => variantOf(p) === variant).sort((a, b) => b.probability - a.probability);
    value.likely = own[0]!.value;
    value.low = Math.min(value.low, value.likely);
    value.high = Math.max(value.high, value.likely);
  }
  const { hypothesis } = group[0]!;
  const best = [...group].sort((a, b) => b.probability - a.probability)[0]!;
  const fault = hypothesis.fault!;
  return {
    cause: hypothesis.cause,
    fault: fault.kind === 'item' ? { ...fault, variant } : fault,
    value,
    probability,
    explains: unsurprising(distanceOf(best, seen), seen.length),
    asWell: false,
  };
}

function likeliestVariant(group: readonly Point[]): Variant | null {
  const variants = new Map<Variant | null, number>();
  for (const point of group) {
    const variant = variantOf(point);
    variants.set(variant, (variants.get(variant) ?? 0) + point.probability);
  }
  return [...variants].sort((a, b) => b[1] - a[1])[0]![0];
}

function variantOf({ hypothesis }: Point): Variant | null {
  const fault: Fault | null = hypothesis.fault;
  return fault?.kind === 'item' ? fault.variant : null;
}
