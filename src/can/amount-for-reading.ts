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
 * The amount from 0 to `most` at which a reading comes to its aim: bracketed upwards from a guess, for a reading may fall before it rises (acid
 * in hard water), then by regula falsi with halved ends (the Illinois rule), to 1e-10 mS/cm.
 * @param beyond mS/cm by which a can with so much in it reads beyond the aim; negative below it
 */
export function amountFor(beyond: (amount: number) => number, most: number, guess = most * FIRST): Conducting {
  const start = { x: 0, y: beyond(0) };
  if (start.y >= -DUST) return { kind: 'past', amount: 0, slope: (beyond(most) - start.y) / most };
  let low = start;
  for (let x = Math.min(most, guess); ; ) {
    const high = { x, y: beyond(x) };
    if (high.y >= 0) {
      const amount = root(beyond, low, high);
      return { kind: 'found', amount, slope: -start.y / amount };
    }
    if (x >= most) return { kind: 'too much', amount: most, slope: (high.y - start.y) / most };
    const straight = high.y > low.y ? x - (high.y * (x - low.x)) / (high.y - low.y) : 0;
    low = high;
    // conductivity bends down: a little more than straight on is enough
    x = Math.min(most, straight > x ? x + MORE * (straight - x) : 2 * x);
  }
}

/** mS/cm that nothing tells. */
const DUST = 1e-9;
const EXACT = 1e-10;
/** Where to look first, as a share of the most. */
const FIRST = 1 / 100;
const MORE = 1.1;

interface Point {
  x: number;
  y: number;
}

function root(of: (x: number) => number, below: Point, above: Point): number {
  let [low, high] = [below, above];
  let kept: 'low' | 'high' | null = null;
  let x = high.x;
  for (let step = 0; step < 200 && high.x - low.x > 1e-12 * high.x; step += 1) {
    x = (low.x * high.y - high.x * low.y) / (high.y - low.y);
    const y = of(x);
    if (Math.abs(y) < EXACT) return x;
    if (y > 0) {
      high = { x, y };
      if (kept === 'low') low = { ...low, y: low.y / 2 };
      kept = 'low';
    } else {
      low = { x, y };
      if (kept === 'high') high = { ...high, y: high.y / 2 };
      kept = 'high';
    }
  }
  return x;
}
