import { ionsOfMix } from '../can/ec.js';
import { conductivity } from '../chemistry/conductivity.js';
import type { Water } from '../label/product.js';

/** A kind of water that advice names: all but pure, or with what a tap brings. */
export type NamedWater = 'pure' | 'tap';

/** The water of the advice is of another kind than that of the bench. */
export interface OtherWater {
  kind: 'other water';
  /** As written. */
  written: string;
  named: NamedWater;
  /** Names of the bench's waters, and what they read together in equal shares, mS/cm at 25 °C. */
  waters: string[];
  mSPerCm: number;
}

const PURE = String.raw`(?:ro|r\.o\.|r\/o|reverse[- ]osmosis|osmosis|rain|distilled|deioni[sz]ed|deminerali[sz]ed|di|pure)`;
const TAP = '(?:tap|mains|well|hard|spring|borehole)';
/** `in RO water`, `per gallon of rain water`, `with hard water`; a product may be called after rain. */
const NAMED = new RegExp(
  String.raw`(?<![\p{L}\d-])(?<written>(?:(?<pure>${PURE})|(?<tap>${TAP}))\s+water|(?<rain>rainwater)(?!\s+(?:powder|liquid|feed|formula))|(?<=(?:in|of|with|to)\s)(?<bare>ro|rain))(?![\p{L}\d-])`,
  'iu',
);

/** Waters that read less are as good as pure, and no tap reads less than the other, mS/cm (by the waters of the catalog; from memory). */
const PURE_TO = 0.1;
const TAP_FROM = 0.05;

/**
 * The water that words name, where the bench's is of another kind; null where they name none, or none that differs. Both words for the grower's
 * own tap and waters in between are let pass.
 */
export function otherWater(text: string, waters: readonly Water[]): OtherWater | null {
  const found = NAMED.exec(ownAside(text))?.groups;
  if (!found || waters.length === 0) return null;
  const named: NamedWater = found.tap === undefined ? 'pure' : 'tap';
  const shares = waters.map(() => 1 / waters.length);
  const mSPerCm = conductivity(ionsOfMix({ products: [], waters: shares }, [], waters));
  const differs = named === 'pure' ? mSPerCm > PURE_TO : mSPerCm < TAP_FROM;
  return differs
    ? { kind: 'other water', written: found.written!, named, waters: waters.map(({ name }) => name), mSPerCm }
    : null;
}

/** Without readings above a water, which is the grower's own. */
const ownAside = (text: string): string =>
  text.replace(
    /\b(?:above|over|on top of|plus|beyond|added to|in addition to|more than)\s+(?:the |your |my )?(?:plain |own )?\p{L}+\s+water/giu,
    ' ',
  );
