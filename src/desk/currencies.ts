import type { Product } from '../label/product.js';
import { type Problem, problem } from '../problem.js';
import { otherCurrency } from '../units/index.js';

/** Prices that say a currency other than that of the bench, which no sum may mix. */
export function pricesInOtherCurrencies(products: readonly Product[], currency: string): Problem[] {
  return products
    .filter((product) => otherCurrency(product.priceCurrency, currency))
    .map(({ where, price, priceCurrency }) =>
      problem(
        'price-currency',
        { ...where, field: 'price' },
        `"${price} ${priceCurrency}"`,
        `a price in ${currency}`,
        `Write what it is in ${currency}.`,
      ),
    );
}

/** The prices of the catalog are in this. */
export const CATALOG_CURRENCY = 'EUR';
