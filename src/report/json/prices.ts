import type * as z from 'zod';
import type { Prices, ProductPrice } from '../../feed/results.js';
import { limitFrom, limitSays, unitOfLimit } from '../says/limits.js';
import { limitPriceSays, unusedPriceSays, usedPriceSays } from '../says/prices.js';
import type { prices as pricesShape } from '../shapes.js';

type PricesJson = z.infer<typeof pricesShape>;

/** What it costs to insist, as it is published. */
export function pricesJson({ cost, limits, used, unused }: Prices, currency: string): PricesJson {
  return {
    limits: limits.map((line) => {
      const { limit, end, bound, left, right, lifted } = line;
      return {
        limit: limitSays(limit),
        from: limitFrom(limit),
        end,
        bound,
        unit: unitOfLimit(limit),
        left,
        right,
        lifted,
        sentence: limitPriceSays(line, cost, currency),
      };
    }),
    used: used.map((line) => productJson(line, usedPriceSays(line, currency))),
    unused: unused.map((line) => productJson(line, unusedPriceSays(line, currency))),
  };
}

function productJson({ isKnown: _, ...line }: ProductPrice, sentence: string): PricesJson['used'][number] {
  return { ...line, sentence };
}
