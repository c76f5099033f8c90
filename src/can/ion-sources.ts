import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { type Ions, mmolPerMg } from '../chemistry/ions.js';
import { type IonSource, type SolutionIons, times } from './clouding.js';
import { ionsOfWater, PURE_WATER } from './ec.js';

/** What a product brings at so many g or mL per litre. */
export function ionSourceOf(product: ClosedProduct, perLitre: number): IonSource {
  const { value, alkaline, from } = product.ions;
  const sulfate = product.composition.content.S.high * mmolPerMg('SO4');
  // the alkaline make-up of a bare label counts every missing anion as bicarbonate: too far-fetched for an alarm
  const alkalinity = from === 'sources' ? Math.max(value.alkalinity, alkaline.alkalinity) : value.alkalinity;
  const ions = times(inSolution(value), perLitre);
  const most = times(inSolution({ ...value, SO4: Math.max(value.SO4, sulfate), alkalinity }), perLitre);
  const open = OPEN.some((ion) => most[ion] - ions[ion] > 1e-6 * (1 + ions[ion]));
  return { kind: 'product', id: product.id, name: product.name, ions, ...(open ? { most } : {}) };
}

/** What a water brings into a litre of feed solution, of which it is the `share`. */
export function ionSourceOfWater(water: Water, share: number): IonSource {
  return { kind: 'water', id: water.id, name: water.name, ions: times(inSolution(ionsOfWater(water)), share) };
}

/** A litre of pure water. */
export const pureWater = (): IonSource => ({
  kind: 'water',
  id: 'pure',
  name: 'pure water',
  ions: inSolution(PURE_WATER),
});

const OPEN = ['SO4', 'HCO3'] as const;

const inSolution = ({ alkalinity, ...ions }: Ions): SolutionIons => ({ ...ions, HCO3: alkalinity });
