/** What a product does to a reading. */
export interface Conducting {
  /** `past`: the reading is beyond the aim before it goes in. `too much`: no amount up to the most brings it there. */
  kind: 'found' | 'past' | 'too much';
  /** Per litre: none where it is past, the most where that is too little. */
  amount: number;
  /** mS/cm for each g or mL in a litre, over that amount, or over the most. */
  slope: number;
}

/**
 * The least amount from 0 to `most` at which a reading comes to its aim: bracketed by doubling, for a reading may fall before it rises (acid in
 * hard water), then by regula falsi with halved ends (the Illinois rule), to 1e-12 of the amount.
 * @param beyond mS/cm by which a can with so much in it reads beyond the aim; negative below it
 */
export function amountFor(beyond: (amount: number) => number, most: number): Conducting {
  const start = beyond(0);
  if (start >= -DUST) return { kind: 'past', amount: 0, slope: (beyond(most) - start) / most };
  let low = { x: 0, y: start };
  let high = { x: most / 2 ** DOUBLINGS, y: 0 };
  for (;;) {
    high = { x: high.x, y: beyond(high.x) };
    if (high.y >= 0 || high.x >= most) break;
    low = high;
    high = { x: Math.min(most, high.x * 2), y: 0 };
  }
  if (high.y < 0) return { kind: 'too much', amount: most, slope: (high.y - start) / most };
  const amount = root(beyond, low, high);
  return { kind: 'found', amount, slope: -start / amount };
}

/** mS/cm that nothing tells. */
const DUST = 1e-9;
const DOUBLINGS = 16;

interface Point {
  x: number;
  y: number;
}

function root(of: (x: number) => number, below: Point, above: Point): number {
  let [low, high] = [below, above];
  let kept: 'low' | 'high' | null = null;
  for (let step = 0; step < 200 && high.x - low.x > 1e-12 * high.x; step += 1) {
    const x = (low.x * high.y - high.x * low.y) / (high.y - low.y);
    const y = of(x);
    if (y === 0) return x;
    if (y > 0) {
      high = { x, y };
      if (kept === 'low') low = { ...low, y: low.y / 2 };
      kept = 'low';
    } else {
      low = { x, y };
      if (kept === 'high') high = { ...high, y: high.y / 2 };
      kept = 'high';
    }
    if (Math.abs(y) < 1e-13) return x;
  }
  return (low.x + high.x) / 2;
}
