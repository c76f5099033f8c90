import type { LimitPrice, PriceSide, ProductPrice } from '../../feed/results.js';
import { formatNumber } from '../../units/index.js';
import { unitOfLimit } from './limits.js';

/** A cost or saving below this share of the whole is rounding of the certificate (1e-6). */
const NOTHING = 2e-6;

/**
 * `each mg/L costs 0.00019 EUR/L, from 18 to 23.9; lifting it saves 34.4 %`.
 * @param cost of the whole feed per litre, beside which a price may be nothing
 */
export function limitPriceSays(line: LimitPrice, cost: number, currency: string): string {
  const parts = movingIt(line, cost, currency === '' ? 'per litre' : `${currency}/L`);
  const { lifted } = line;
  if (lifted)
    parts.push(lifted.saves > 0 ? `lifting it saves ${plain(100 * lifted.saves)} %` : 'lifting it saves nothing');
  return parts.join('; ');
}

function movingIt({ limit, bound, end, left, right }: LimitPrice, cost: number, money: string): string[] {
  const [stricter, looser] = end === 'least' ? [right, left] : [left, right];
  const unit = unitOfLimit(limit);
  // a rule of proportion has no number of its own to move: what moves is the room it leaves
  const room = limit.kind === 'rule' && bound === 0;
  const paid = (side: PriceSide): string => {
    const price = Math.abs(side.pricePerUnit!);
    const most = price * Math.max(Math.abs(bound), Math.abs((side.limit ?? bound) - bound));
    return most <= NOTHING * cost ? 'nothing' : `${plain(price)} ${money}`;
  };
  const to = (side: PriceSide): string =>
    side.limit === null ? 'without end' : `as far as ${plain(Math.abs(side.limit))}`;
  if (!room && stricter.pricePerUnit !== null && paid(stricter) === paid(looser)) {
    const each = end === 'least' ? `each ${unit} costs` : `each ${unit} of room saves`;
    return [`${each} ${paid(looser)}, ${fromTo(left.limit, right.limit)}`];
  }
  const parts: string[] = [];
  const more = end === 'least' ? ['more', 'less'] : ['less', 'more'];
  const [up, down] = room ? ['stricter', 'of room'] : more;
  if (stricter.pricePerUnit !== null) parts.push(`each ${unit} ${up} costs ${paid(stricter)} ${to(stricter)}`);
  else if (bound !== 0 || room) parts.push('no mix could keep a stricter one');
  if (looser.pricePerUnit !== null) parts.push(`each ${unit} ${down} saves ${paid(looser)} ${to(looser)}`);
  return parts;
}

/** `from 18 to 23.9`, `up to 23.9`, `from 18 upwards`. */
function fromTo(low: number | null, high: number | null): string {
  if (low === null) return high === null ? 'without end' : `up to ${plain(high)}`;
  return high === null ? `from ${plain(low)} upwards` : `from ${plain(low)} to ${plain(high)}`;
}

/** `the blend stays the cheapest from 3 EUR up to 4.5 EUR a pack of 1000 g (now 4 EUR)`. */
export function usedPriceSays(line: ProductPrice, currency: string): string {
  const { pack, unit, highest } = line;
  const lowest = line.lowest ?? 0;
  const show = (perUnit: number): string =>
    pack === null ? `${plain(perUnit)} ${currency}/${unit}` : `${plain(perUnit * pack)} ${currency}`;
  const per = pack === null ? '' : ` a pack of ${plain(pack)} ${unit}`;
  const above = lowest > 0 ? `from ${show(lowest)}` : 'even for nothing';
  const below = highest === null ? 'at any price' : `${lowest > 0 ? '' : 'and '}up to ${show(highest)}`;
  const stays = lowest > 0 && highest === null ? `${above} upwards` : highest === null ? below : `${above} ${below}`;
  return `the blend stays the cheapest ${stays}${per}${nowSays(line, currency)}`;
}

/** `would come in below 8 EUR a pack of 1000 g (now 9 EUR)`. */
export function unusedPriceSays(line: ProductPrice, currency: string): string {
  const { pack, unit, lowest } = line;
  if (lowest === null) return 'would not come in at any price';
  const at =
    pack === null
      ? `${plain(lowest)} ${currency}/${unit}`
      : `${plain(lowest * pack)} ${currency} a pack of ${plain(pack)} ${unit}`;
  return `would come in below ${at}${nowSays(line, currency)}`;
}

function nowSays({ isKnown, price, pack }: ProductPrice, currency: string): string {
  if (!isKnown || pack === null) return ' (its price is not known)';
  return ` (now ${`${plain(price * pack)} ${currency}`.trimEnd()})`;
}

/** Three digits are what a price is read to. */
const plain = (x: number): string => formatNumber(x, 3);
