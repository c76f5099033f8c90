import type { Nutrient } from '../chemistry/nutrients.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Composition } from '../label/composition.js';
import { readAnalysis } from '../label/read-analysis.js';
import { type Checked, checked, type Problem, type Where } from '../problem.js';
import type { AdviceNeed, AdviceNote, AdviceSense, UsualRate } from './findings.js';
import { ofOwnProduct } from './own-product.js';
import { readRate } from './rate.js';
import type { Advice, AdviceReading, AdviceResult, Figure, PenScaleNamed, Rate, Span } from './types.js';
import { type GradeIons, gradeEc, gradeIons, gramsAt } from './bare-grade-ec.js';

/** Readings of advice, with how they were come by. */
export type Translated = Pick<AdviceResult, 'readings' | 'certainty' | 'notes' | 'needed'>;

/**
 * Every sense that advice can have, as mg/L and mS/cm. Refuses grades that no product can have.
 * @param likely what is likely behind its grade (`likelyGradeIons`); without it, all that can be
 */
export function translate(
  advice: Advice,
  where: Where = {},
  owned: readonly ClosedProduct[] = [],
  likely?: GradeIons,
): Checked<Translated> {
  const problems: Problem[] = [];
  const notes: AdviceNote[] = [];
  const needed: AdviceNeed[] = [];
  const product = advice.grade ? gradedOf(advice, where, problems, likely) : null;
  const own = owned.map((one) => ofOwnProduct(advice, one, where)).flatMap((read) => (read.ok ? [read.value] : []));
  notes.push(...own.flatMap((one) => one.notes));
  const bare = advice.rate
    ? ofRate(advice, advice.rate, product, where, problems, notes, needed)
    : advice.figures[0]
      ? ofFigure(advice, advice.figures[0], product, notes, needed)
      : ofUnknownBase(advice, product, where, problems, notes, needed);
  const readings = [...own.flatMap((one) => one.readings), ...bare];
  if (advice.grade) {
    notes.push(
      {
        kind: 'grade',
        grade: advice.grade.text,
        of: advice.grade.percent.P2O5 === undefined ? 'elements' : 'oxides',
      },
      { kind: 'only a grade' },
    );
    needed.push({ kind: 'whole label' });
  }
  const by = readings[0]?.counts;
  if (advice.grade && by && by !== 'EC' && by !== 'N')
    notes.push({ kind: 'no nitrogen', grade: advice.grade.text, counts: by });
  if (advice.around.howOften) notes.push({ kind: 'how often' });
  const { dilution, atMost } = advice.around;
  const base = !advice.rate && advice.figures.length === 0 && readings.length === bare.length;
  const open =
    atMost || readings.length > 1 || readings.some((r) => r.wanted && r.wanted.high > r.wanted.low * (1 + 1e-9));
  if (dilution && !advice.rate) notes.push({ kind: 'behind the injector' });
  if (atMost) notes.push({ kind: 'ceiling' });
  return checked({ readings, certainty: base ? 'base unknown' : open ? 'range' : 'exact', notes, needed }, problems);
}

/** A product of which only the grade is known. */
interface Graded {
  content: Composition['content'];
  ions: GradeIons;
}

function gradedOf({ grade }: Advice, where: Where, problems: Problem[], likely: GradeIons | undefined): Graded | null {
  const read = readAnalysis({ form: 'powder', percent: grade!.percent }, where);
  problems.push(...(read.ok ? [] : read.problems));
  return read.ok ? { content: read.value.content, ions: likely ?? gradeIons(grade!) } : null;
}

function ofRate(
  advice: Advice,
  rate: Rate,
  product: Graded | null,
  where: Where,
  problems: Problem[],
  notes: AdviceNote[],
  needed: AdviceNeed[],
): AdviceReading[] {
  const read = readRate(rate, advice, where);
  if (!read.ok) {
    problems.push(...read.problems);
    return [];
  }
  notes.push(...read.value.notes);
  needed.push(...read.value.needed);
  if (!product) return [];
  const { dilution } = advice.around;
  const stockParts = dilution && 1 / dilution.high;
  const by = (share: number, of: 'rate' | 'share of it' | 'as it is'): AdviceReading[] =>
    read.value.readings.map(({ per, gramsPerLitre }) =>
      ofGrams({ kind: 'rate', per, of, stockParts }, scaled(diluted(gramsPerLitre, dilution), share), product),
    );
  if (dilution && dilution.high > dilution.low) notes.push({ kind: 'parts of stock' });
  if (!advice.shareMayBeIn) return by(advice.share, 'rate');
  needed.push({ kind: 'share or whole', rate: rate.words });
  notes.push({ kind: 'share or whole', rate: rate.words });
  return [...by(advice.share, 'share of it'), ...by(1, 'as it is')];
}

const diluted = ({ low, high }: Span, by: Span | null): Span =>
  by === null ? { low, high } : { low: low * by.low, high: high * by.high };

/** So many g/L of a product. */
function ofGrams(sense: AdviceSense, grams: Span, product: Graded): AdviceReading {
  const elements = NUTRIENTS.flatMap((element) => {
    const stated = product.content[element].stated;
    return stated !== null && stated > 0 ? [{ element, ...scaled(grams, stated) }] : [];
  });
  const main = (['N', 'K', 'P'] as const).find((n) => elements.some((e) => e.element === n));
  const found = elements.find((e) => e.element === main);
  return {
    sense,
    counts: main ?? null,
    wanted: found ? { low: found.low, high: found.high } : null,
    gramsPerLitre: grams,
    elements,
    ec: gradeEc(product.ions, grams),
  };
}

function ofFigure(
  advice: Advice,
  figure: Figure,
  product: Graded | null,
  notes: AdviceNote[],
  needed: AdviceNeed[],
): AdviceReading[] {
  const by = (span: Span): Span => scaled(span, advice.share);
  const above = advice.around.aboveWater;
  const onScales = (ppm: Span, scales: readonly PenScaleNamed[]): AdviceReading[] =>
    scales.map((scale) =>
      ofEc({ kind: 'pen', scale: scale.name, aboveWater: above }, by(reading(ppm, scale.ppmPerMilliSiemens)), product),
    );
  if (advice.share !== 1 && figure.kind !== 'element') notes.push({ kind: 'share of EC' });
  switch (figure.kind) {
    case 'element': {
      const reading = ofElement(figure.as, by(figure.mgPerLitre), product);
      if (figure.written !== figure.as)
        notes.push({ kind: 'turned into', written: figure.written, element: figure.as });
      return [reading];
    }
    case 'conductivity':
      if (figure.note) notes.push(figure.note);
      notes.push(above ? ABOVE : WHOLE_CAN);
      return [ofEc({ kind: 'EC', aboveWater: above }, by(figure.mSPerCm), product)];
    case 'pen':
      notes.push(above ? ABOVE : WHOLE_CAN);
      if (figure.scale === null) needed.push({ kind: 'scale of the pen' });
      return onScales(figure.ppm, figure.scale === null ? SCALES : [figure.scale]);
    case 'ppm':
      needed.push({ kind: 'ppm of what' });
      if (above) {
        // nobody reads nitrogen above that of the water
        notes.push(ABOVE);
        return onScales(figure.ppm, SCALES);
      }
      notes.push({ kind: 'bare ppm' }, WHOLE_CAN);
      return [
        ofElement('N', by(figure.ppm), product),
        ...(product ? [ofGrams({ kind: 'product' }, scaled(by(figure.ppm), 1 / 1000), product)] : []),
        ...onScales(figure.ppm, SCALES),
      ];
  }
}

const ABOVE = { kind: 'above water' } as const;
const WHOLE_CAN = { kind: 'whole can' } as const;

/** Scales that pens show (from memory). */
const SCALES = [500, 640, 700].map((scale) => ({
  name: `${scale} scale`,
  ppmPerMilliSiemens: { low: scale, high: scale },
}));

const reading = (ppm: Span, scale: Span): Span => ({ low: ppm.low / scale.high, high: ppm.high / scale.low });

function ofElement(element: Nutrient, wanted: Span, product: Graded | null): AdviceReading {
  const per = product?.content[element].stated ?? 0;
  const sense = { kind: 'element', element } as const;
  if (product && per > 0) return { ...ofGrams(sense, scaled(wanted, 1 / per), product), counts: element, wanted };
  return { sense, counts: element, wanted, gramsPerLitre: null, elements: [{ element, ...wanted }], ec: null };
}

/** A reading in mS/cm. What a grade at that reading holds is a range, for its forms are not told. */
function ofEc(sense: AdviceSense & { aboveWater: boolean }, wanted: Span, product: Graded | null): AdviceReading {
  const bare: AdviceReading = { sense, counts: 'EC', wanted, gramsPerLitre: null, elements: [], ec: wanted };
  if (!product) return bare;
  const grams = gramsAt(product.ions, wanted);
  if (grams === null) return bare;
  return { ...ofGrams(sense, grams, product), counts: 'EC', wanted, ec: wanted };
}

/** A share of nobody knows what: what it would be, if the label said what labels often say. */
function ofUnknownBase(
  advice: Advice,
  product: Graded | null,
  where: Where,
  problems: Problem[],
  notes: AdviceNote[],
  needed: AdviceNeed[],
): AdviceReading[] {
  needed.push({ kind: 'label rate' });
  if (!product) return [];
  notes.push({ kind: 'unknown base', share: advice.share });
  const rates: { rate: UsualRate; gramsPerLitre: Span }[] = [];
  for (const [amount, unit, usual] of USUAL) {
    const read = readRate(
      { words: '', amount: { low: amount, high: amount }, unit, count: 1, per: 'US gal' },
      advice,
      where,
    );
    problems.push(...(read.ok ? [] : read.problems));
    if (!read.ok) continue;
    rates.push(...read.value.readings.map(({ gramsPerLitre }) => ({ rate: usual, gramsPerLitre })));
    if (rates.length === 1) {
      notes.push(...read.value.notes);
      needed.push(...read.value.needed);
    }
  }
  return rates.map(({ rate, gramsPerLitre }) =>
    ofGrams({ kind: 'usual rate', rate }, scaled(gramsPerLitre, advice.share), product),
  );
}

/** Full strength on the labels of soluble feeds. */
const USUAL: readonly [number, string, UsualRate][] = [
  [1 / 2, 'US tsp', '1/2 tsp per US gal'],
  [1, 'US tsp', '1 tsp per US gal'],
  [1, 'US tbsp', '1 tbsp per US gal'],
];

const scaled = ({ low, high }: Span, by: number): Span => ({ low: low * by, high: high * by });
