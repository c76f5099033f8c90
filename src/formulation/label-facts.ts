import type { Product } from '../catalog/product.js';
import { potentialAcidity } from '../chemistry/acidity.js';
import { type Problem, warning } from '../problem.js';
import { saltsIn } from './acidity.js';
import { closeProduct, ionsOf, sourcesDisagree } from './close.js';
import { conductingIons, conductivity, NONE } from './ec.js';

/** What 1 g/L or 1 mL/L of a product does to a meter and, over time, to a medium. */
export interface LabelFacts {
  /** In pure water at 25 °C. `from`: what its ions rest on. */
  ec: { mSPerCm: number; low: number; high: number; from: 'measured' | 'formula' | 'sources' | 'label alone' };
  /** Potential acidity, g CaCO3 per kg (or per litre of a liquid); negative is basic. */
  acidity: number;
}

/** The product with its label closed, its facts, and a warning where the salts it names cannot make its analysis. */
export async function labelFacts(
  asked: Product,
): Promise<{ product: Product; facts: LabelFacts; problems: Problem[] }> {
  const product = await closeProduct(asked);
  const { content } = product.composition;
  const read = (['value', 'dim', 'bright'] as const).map((which) => netEc(product, which));
  const disagreement = await sourcesDisagree(asked);
  return {
    product,
    facts: {
      ec: {
        mSPerCm: read[0]!,
        low: Math.min(...read),
        high: Math.max(...read),
        from: product.ec === undefined ? ionsOf(product).from : 'measured',
      },
      acidity: potentialAcidity({ ...saltsIn(ionsOf(product).value), N: content.N.stated ?? content.N.low }),
    },
    problems: disagreement === null ? [] : [sourcesWarning(product, disagreement)],
  };
}

/** What the product adds; the water's own trace is left out. */
function netEc(product: Product, which: 'value' | 'dim' | 'bright'): number {
  const ions = conductingIons(product, which);
  const bare = conductivity(NONE);
  return Math.max(0, conductivity(ions) - (product.ec === undefined ? bare : 0));
}

function sourcesWarning(product: Product, found: string): Problem {
  return warning(
    'sources-disagree',
    { ...product.where, field: 'derived_from' },
    found,
    'salts that can make the analysis',
    'Copy the whole list of sources; until then every plausible counter-ion is allowed for.',
  );
}
