import type { ClosedProduct } from '../label/closed-product.js';
import { potentialAcidity } from '../chemistry/acidity.js';
import type { Ions } from '../chemistry/ions.js';
import { type SolutionChemistry, solutionChemistry } from '../chemistry/solution/index.js';
import { type MilliSiemensPerCm, milliSiemensOf, milliSiemensPerCm } from '../units/index.js';
import { saltsIn } from './acidity.js';
import { ionSourceOf, pureWater } from './ion-sources.js';
import { type CloudingLine, cloudingOf } from './clouding.js';
import { chemistryOf, conductivity, NONE } from '../chemistry/conductivity.js';
import { conductingIons, type MakeUp } from './ec.js';
import { PH_ERROR } from './in-the-can.js';

/** What 1 g/L or 1 mL/L of a product does to a meter and, over time, to a medium. */
export interface LabelFacts {
  /** In pure water at 25 °C. `from`: what its ions rest on. */
  ec: {
    mSPerCm: MilliSiemensPerCm;
    low: MilliSiemensPerCm;
    high: MilliSiemensPerCm;
    from: 'measured' | 'formula' | 'sources' | 'label alone';
  };
  /** In pure water that has stood open to air: an estimate, with the error of the model; `asMixed` in pure water just drawn. */
  ph: { value: number; low: number; high: number; asMixed: number };
  /** What comes out of it in pure water by itself. */
  precipitation: CloudingLine[];
  /** Potential acidity, g CaCO3 per kg (or per litre of a liquid); negative is basic. */
  acidity: number;
}

/** The facts of a product. */
export function labelFacts(product: ClosedProduct): LabelFacts {
  const { N } = product.composition.content;
  const chemistry = chemistryOfEach();
  const clouding = cloudingOf([ionSourceOf(product, 1), pureWater()], solutionChemistry);
  const read = (['value', 'leastConductive', 'mostConductive'] as const).map((which) => {
    const { ec25 } = chemistry(conductingIons(product, which));
    return netEc(milliSiemensOf(ec25), product);
  });
  return {
    ec: {
      mSPerCm: read[0]!,
      low: milliSiemensPerCm(Math.min(...read)),
      high: milliSiemensPerCm(Math.max(...read)),
      from: product.ec === undefined ? product.ions.from : 'measured',
    },
    ph: { ...phOf(MAKE_UPS.map((which) => chemistry(product.ions[which]).pH)), asMixed: clouding.pH },
    precipitation: clouding.minerals,
    acidity: potentialAcidity({ ...saltsIn(product.ions.value), N: N.stated ?? N.low }),
  };
}

/** The chemistry of make-ups, of those that are one and the same once: of a pure salt they all are. */
function chemistryOfEach(): (ions: Ions) => SolutionChemistry {
  const known = new Map<Ions, SolutionChemistry>();
  return (ions) => {
    const chemistry = known.get(ions) ?? chemistryOf(ions);
    known.set(ions, chemistry);
    return chemistry;
  };
}

/** What the product adds; the water's own trace is left out. */
function netEc(mSPerCm: MilliSiemensPerCm, { ec }: ClosedProduct): MilliSiemensPerCm {
  bare ??= conductivity(NONE);
  return milliSiemensPerCm(Math.max(0, mSPerCm - (ec === undefined ? bare : 0)));
}

/** What pure water conducts. */
let bare: number | undefined;

/** Over every make-up that the label allows. */
function phOf(all: readonly number[]): Omit<LabelFacts['ph'], 'asMixed'> {
  return { value: all[0]!, low: Math.min(...all) - PH_ERROR, high: Math.max(...all) + PH_ERROR };
}

const MAKE_UPS: readonly MakeUp[] = ['value', 'leastConductive', 'mostConductive', 'acid', 'alkaline'];
