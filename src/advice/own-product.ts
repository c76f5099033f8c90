import { conductingIons, plus } from '../can/ec.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { type Checked, checked, type Where } from '../problem.js';
import type { AdviceNote, AdviceSense } from './findings.js';
import { readRate, type Weighing } from './rate.js';
import type { Advice, AdviceReading, Span } from './types.js';

/**
 * Advice on a grade as the product of that grade on the grower's own shelf has it, the likeliest that is meant: its label, the weight of its
 * spoonful, and the most of its label as full strength. No reading where the words name neither a rate, an element nor a share of one.
 */
export function ofOwnProduct(
  advice: Advice,
  product: ClosedProduct,
  where: Where,
): Checked<{ readings: AdviceReading[]; notes: AdviceNote[] }> {
  const { id, maxRate } = product;
  const note: AdviceNote = { kind: 'own product', id, full: null, unit: product.composition.per };
  const of = (per: string | null, amount: Span): AdviceReading =>
    ofAmount({ kind: 'own product', id, per }, amount, product);
  const [figure] = advice.figures;
  if (advice.rate !== null) {
    const read = readRate(advice.rate, { ...advice, form: product.form }, where, weighing(product));
    if (!read.ok) return read;
    const shares = advice.shareMayBeIn ? [advice.share, 1] : [advice.share];
    const { low, high } = advice.around.dilution ?? { low: 1, high: 1 };
    const readings = shares.flatMap((share) =>
      read.value.readings.map(({ per, gramsPerLitre: g }) =>
        of(per, { low: g.low * low * share, high: g.high * high * share }),
      ),
    );
    return checked({ readings, notes: [note] }, []);
  }
  if (figure?.kind === 'element') {
    const per = product.composition.content[figure.as].stated ?? 0;
    const by = advice.share / per;
    const { low, high } = figure.mgPerLitre;
    const readings = per > 0 ? [{ ...of(null, { low: low * by, high: high * by }), counts: figure.as }] : [];
    return checked({ readings, notes: per > 0 ? [note] : [] }, []);
  }
  if (figure !== undefined || maxRate === undefined) return checked({ readings: [], notes: [] }, []);
  const amount = advice.share * maxRate;
  return checked({ readings: [of(null, { low: amount, high: amount })], notes: [{ ...note, full: maxRate }] }, []);
}

/** What a millilitre and a gram of it count for on its label. */
function weighing({ form, bulkDensity, bulkDensityOff = 0, density, composition }: ClosedProduct): Weighing {
  const even = { low: 1, high: 1 };
  if (form === 'liquid' && composition.per === 'mL')
    return {
      perMillilitre: even,
      ...(density === undefined ? {} : { perGram: { low: 1 / density, high: 1 / density } }),
    };
  if (bulkDensity === undefined) return { perGram: even };
  return { perGram: even, perMillilitre: { low: bulkDensity - bulkDensityOff, high: bulkDensity + bulkDensityOff } };
}

/** g or mL of a product in a litre of pure water. */
function ofAmount(sense: AdviceSense, amount: Span, product: ClosedProduct): AdviceReading {
  const elements = NUTRIENTS.flatMap((element) => {
    const { low, stated, high } = product.composition.content[element];
    const [least, most] = stated === null ? [low, high] : [stated, stated];
    return most > 0 ? [{ element, low: amount.low * least, high: amount.high * most }] : [];
  });
  const main = (['N', 'K', 'P'] as const).find((n) => elements.some((e) => e.element === n && e.low > 0)) ?? null;
  const found = elements.find((e) => e.element === main);
  const ecOf = (x: number, which: 'leastConductive' | 'mostConductive'): number =>
    conductivity(plus(NONE, conductingIons(product, which), x));
  return {
    sense,
    counts: main,
    wanted: found ? { low: found.low, high: found.high } : null,
    gramsPerLitre: amount,
    elements,
    ec: { low: ecOf(amount.low, 'leastConductive'), high: ecOf(amount.high, 'mostConductive') },
  };
}
