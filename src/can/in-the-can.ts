import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { Ions } from '../chemistry/ions.js';
import { acidityOf, type Totals } from './acidity.js';
import { ionSourceOf, ionSourceOfWater } from './ion-sources.js';
import { type Clouding, type IonSource, type CloudingLine, cloudingOf } from './clouding.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import { chemistryOf } from '../chemistry/conductivity.js';
import { conductingIons, ionsOfMix, ionsOfWater, type MakeUp, openIons } from './ec.js';
import { type Meeting, meetings } from './meeting.js';
import { type MilliSiemensPerCm, milliSiemensOf, milliSiemensPerCm } from '../units/index.js';
import type { Amounts } from './mix-amounts.js';
import { type AlkalinityLine, alkalinityOf } from './alkalinity.js';
import { CAN_LIMITS } from './compiled-limits.js';
import { type IronLine, ironIn } from './iron.js';
import { type Blend, type Part, partsOf, watersOf } from './part.js';
import { atomicWeight } from '../chemistry/weights.js';
import type { AcidityLine, AmmoniaLine, EcAtTemperature, EcLine, PhLine } from './can-lines.js';

/** What a feed solution shows to a pen and to the eye. */
export interface InTheCan {
  ec: Omit<EcLine, 'max'>;
  /** Only where a temperature was asked for. */
  ecAtTemperature?: EcAtTemperature;
  ph: PhLine;
  acidity: AcidityLine;
  /** Against what the medium bears; null where no medium is known. */
  alkalinity: AlkalinityLine | null;
  ammonia: AmmoniaLine;
  /** null where there is none. */
  iron: IronLine | null;
  /** Whether it stays clear, mineral by mineral. */
  precipitation: CloudingLine[];
  /** Pairs that precipitate where they meet undiluted; absent where there are none. */
  meetings?: Meeting[];
}

/**
 * Conductivity, pH, potential acidity and precipitation of a mix by the full model. Ranges span what labels
 * usually hold by the salts they name, what is likely where they name none, and the error of the model.
 */
export function inTheCan(
  amounts: Amounts,
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
  totals: Totals,
  temperatureC?: number,
  medium: string | null = null,
): InTheCan {
  const { conducting, real, measured } = contentsOf(amounts, shelf, waters);
  const open = real.map((ions) => chemistryOf(ions));
  const ecs = (measured ? conducting.map((ions) => chemistryOf(ions)) : open).map((c) => milliSiemensOf(c.ec25));
  const at = temperatureC === undefined ? null : milliSiemensOf(chemistryOf(conducting[0]!, { temperatureC }).ec);
  const ec = spread(ecs);
  const products = productsIn(amounts, shelf);
  const undiluted = meetings(products, solutionChemistry);
  const clouding = cloudingOf([...products, ...watersIn(amounts, waters)], solutionChemistry, temperatureC ?? 25);
  return {
    ec,
    ...(at === null
      ? {}
      : {
          ecAtTemperature: {
            celsius: temperatureC!,
            mSPerCm: at,
            low: milliSiemensPerCm((ec.low * at) / Math.max(1e-12, ec.mSPerCm)),
            high: milliSiemensPerCm((ec.high * at) / Math.max(1e-12, ec.mSPerCm)),
          },
        }),
    ph: phOf(
      open.map((c) => c.pH),
      real[0]!,
      clouding,
    ),
    acidity: acidityOf(totals, real),
    alkalinity: alkalinityOf(real[0]!.alkalinity, waterAlkalinity(amounts, waters), medium),
    ammonia: ammoniaOf(clouding, temperatureC ?? 25),
    iron: ironIn(partsOf(amounts, shelf), watersOf(amounts, waters), clouding.pH),
    precipitation: clouding.minerals,
    ...(undiluted.length === 0 ? {} : { meetings: undiluted }),
  };
}

/** Conductivity alone, the same as in all that the can shows. */
export function ecInTheCan(
  amounts: Amounts,
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
): InTheCan['ec'] {
  const { conducting, real, measured } = contentsOf(amounts, shelf, waters);
  return spread((measured ? conducting : real).map((ions) => milliSiemensOf(chemistryOf(ions).ec25)));
}

/** The ions of a mix by each make-up of its labels that is told apart: as they conduct, where a product was measured, and as they are. */
function contentsOf(
  amounts: Amounts,
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
): { conducting: Ions[]; real: Ions[]; measured: boolean } {
  const used = amounts.products.flatMap((x, i) => (x > 0 ? [shelf[i]!] : []));
  const settled = used.every((p) => p.ions.value === p.ions.leastConductive && p.ions.value === p.ions.acid);
  const which: readonly MakeUp[] = settled
    ? ['value']
    : ['value', 'leastConductive', 'mostConductive', 'acid', 'alkaline'];
  return {
    conducting: which.map((w) => ionsOfMix(amounts, shelf, waters, w, measuredOrOpen)),
    real: which.map((w) => ionsOfMix(amounts, shelf, waters, w, openIons)),
    measured: used.some((p) => p.ec !== undefined),
  };
}

/** What calls for cautions in a can of some products and waters. @param medium of the catalog; null or empty where nobody says */
export function cautioned(
  parts: readonly Part[],
  blend: readonly Blend[],
  medium: string | null,
  celsius = 25,
): Pick<InTheCan, 'ammonia' | 'iron' | 'alkalinity'> {
  const amounts = { products: parts.map(({ perLitre }) => perLitre), waters: blend.map(({ share }) => share) };
  const shelf = parts.map(({ product }) => product);
  const waters = blend.map(({ water }) => water);
  const clouding = cloudingOf(
    [...productsIn(amounts, shelf), ...watersIn(amounts, waters)],
    solutionChemistry,
    celsius,
  );
  const { alkalinity } = ionsOfMix(amounts, shelf, waters, 'value', openIons);
  return {
    alkalinity: alkalinityOf(alkalinity, waterAlkalinity(amounts, waters), medium),
    ammonia: ammoniaOf(clouding, celsius),
    iron: ironIn(parts, blend, clouding.pH),
  };
}

/** The ions by which a can is told to conduct. */
export const measuredOrOpen = (product: ClosedProduct, which: MakeUp): Ions =>
  product.ec === undefined ? openIons(product, which) : conductingIons(product, which);

/** Error of the conductivity model, as a share: what it was off at most against the tables it is tested with. */
const EC_ERROR = 0.03;
/** Error of the pH estimate: nineteen of twenty published feeds lie within. */
export const PH_ERROR = 0.15;
/** meq/L of alkalinity from which water holds its pH for hours as it came. */
const BUFFERED = 0.5;

function spread([value, ...others]: readonly MilliSiemensPerCm[]): Omit<EcLine, 'max'> {
  return {
    mSPerCm: value!,
    low: milliSiemensPerCm(Math.min(value!, ...others) * (1 - EC_ERROR)),
    high: milliSiemensPerCm(Math.max(value!, ...others) * (1 + EC_ERROR)),
  };
}

function phOf(open: readonly number[], ions: Ions, { pH }: Clouding): PhLine {
  return {
    value: open[0]!,
    low: Math.min(...open) - PH_ERROR,
    high: Math.max(...open) + PH_ERROR,
    asMixed: pH,
    buffered: ions.alkalinity >= BUFFERED,
  };
}

function ammoniaOf({ ammonia, openAmmonia, pH }: Clouding, celsius: number): AmmoniaLine {
  const nitrogen = atomicWeight('N');
  const { most, evidence } = CAN_LIMITS.find(({ quantity }) => quantity === 'ammonia')!;
  return { mgPerLitre: ammonia * nitrogen, standing: openAmmonia * nitrogen, pH, celsius, most, evidence };
}

function waterAlkalinity(amounts: Amounts, waters: readonly Water[]): number {
  return amounts.waters.reduce((sum, share, i) => sum + share * ionsOfWater(waters[i]!).alkalinity, 0);
}

/** Each product, and each water, with what it brings into a litre. */
const productsIn = ({ products }: Amounts, shelf: readonly ClosedProduct[]): IonSource[] =>
  products.flatMap((x, i) => (x > 1e-12 ? [ionSourceOf(shelf[i]!, x)] : []));
const watersIn = (amounts: Amounts, waters: readonly Water[]): IonSource[] =>
  amounts.waters.flatMap((share, i) => (share > 1e-9 ? [ionSourceOfWater(waters[i]!, share)] : []));
