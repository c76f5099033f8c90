import type { Nutrient } from '../chemistry/nutrients.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { Composition } from '../label/composition.js';
import { readAnalysis } from '../label/read-analysis.js';
import { type Checked, checked, type Problem, type Where } from '../problem.js';
import { formatNumber } from '../units/index.js';
import { type RateReadings, readRate } from './rate.js';
import type { Advice, AdviceReading, AdviceResult, Figure, PenScaleNamed, Rate, Span } from './types.js';
import { type GradeIons, gradeEc, gradeIons, gramsAt } from './bare-grade-ec.js';

/** Readings of advice, with how they were come by. */
export type Translated = Pick<AdviceResult, 'readings' | 'certainty' | 'notes' | 'needed'>;

/** Every sense that advice can have, as mg/L and mS/cm. Refuses grades that no product can have. */
export function translate(advice: Advice, where: Where = {}): Checked<Translated> {
  const problems: Problem[] = [];
  const notes: string[] = [];
  const needed: string[] = [];
  const product = advice.grade ? gradedOf(advice, where, problems) : null;
  const readings = advice.rate
    ? ofRate(advice, advice.rate, product, where, problems, notes, needed)
    : advice.figures[0]
      ? ofFigure(advice, advice.figures[0], product, notes, needed)
      : ofUnknownBase(advice, product, where, problems, notes, needed);
  if (advice.grade) {
    notes.push(
      advice.grade.percent.P2O5 === undefined
        ? `${advice.grade.text} is taken as % of the elements N, P and K.`
        : `${advice.grade.text} is N – P2O5 – K2O in % by weight; P is 0.436 of P2O5, K 0.830 of K2O.`,
      'A grade does not tell the forms of its nitrogen, nor what else is in the jar; its EC is a range for that reason.',
    );
    needed.push('the whole label: forms of nitrogen, calcium, magnesium');
  }
  const by = readings[0]?.counts;
  if (advice.grade && by && by !== 'EC' && by !== 'N')
    notes.push(`A ${advice.grade.text} holds no nitrogen: your own feed is held against it by its ${by}.`);
  if (/week|month|fortnight|daily|watering|always|constant|day/i.test(advice.text))
    notes.push('How often it is given is not translated: only the strength of one can is.');
  const { dilution, atMost } = advice.around;
  const base = !advice.rate && advice.figures.length === 0;
  const open =
    atMost || readings.length > 1 || readings.some((r) => r.wanted && r.wanted.high > r.wanted.low * (1 + 1e-9));
  if (dilution && !advice.rate) notes.push('The strength is taken as that of the feed, behind the injector.');
  if (atMost)
    notes.push(
      'A ceiling, not an aim: any weaker feed follows it too. Your own is shown as it is now, and as strong as it may be.',
    );
  const told = atMost ? readings.map((r) => ({ ...r, says: `at most: ${r.says}` })) : readings;
  return checked(
    { readings: told, certainty: base ? 'base unknown' : open ? 'range' : 'exact', notes, needed },
    problems,
  );
}

/** A product of which only the grade is known. */
interface Graded {
  content: Composition['content'];
  ions: GradeIons;
}

function gradedOf({ grade }: Advice, where: Where, problems: Problem[]): Graded | null {
  const read = readAnalysis({ form: 'powder', percent: grade!.percent }, where);
  problems.push(...(read.ok ? [] : read.problems));
  return read.ok ? { content: read.value.content, ions: gradeIons(grade!) } : null;
}

function ofRate(
  advice: Advice,
  rate: Rate,
  product: Graded | null,
  where: Where,
  problems: Problem[],
  notes: string[],
  needed: string[],
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
  const stock = dilution ? ` of stock, 1:${formatNumber(1 / dilution.high, 4)}` : '';
  const by = (share: number, before = ''): AdviceReading[] =>
    read.value.readings.map(({ says, gramsPerLitre }) =>
      ofGrams(`${before}${says}${stock}`, scaled(diluted(gramsPerLitre, dilution), share), product),
    );
  if (dilution && dilution.high > dilution.low)
    notes.push('One part of stock in so many, or to so many of water: words do not tell, and both are counted.');
  if (!advice.shareMayBeIn) return by(advice.share);
  needed.push(`whether ${rate.words} is the full strength, or the share of it`);
  notes.push(
    `"${rate.words}" may be full strength, of which the share is taken, or be that share already: both are shown.`,
  );
  return [...by(advice.share, 'that share of it, '), ...by(1, 'as it is, ')];
}

const diluted = ({ low, high }: Span, by: Span | null): Span =>
  by === null ? { low, high } : { low: low * by.low, high: high * by.high };

/** So many g/L of a product. */
function ofGrams(says: string, grams: Span, product: Graded): AdviceReading {
  const elements = NUTRIENTS.flatMap((element) => {
    const stated = product.content[element].stated;
    return stated !== null && stated > 0 ? [{ element, ...scaled(grams, stated) }] : [];
  });
  const main = (['N', 'K', 'P'] as const).find((n) => elements.some((e) => e.element === n));
  const found = elements.find((e) => e.element === main);
  return {
    says,
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
  notes: string[],
  needed: string[],
): AdviceReading[] {
  const by = (span: Span): Span => scaled(span, advice.share);
  const above = advice.around.aboveWater;
  const onScales = (ppm: Span, scales: readonly PenScaleNamed[]): AdviceReading[] =>
    scales.map((scale) =>
      ofEc(`a pen on the ${scale.name}`, by(reading(ppm, scale.ppmPerMilliSiemens)), product, above),
    );
  if (advice.share !== 1 && figure.kind !== 'element')
    notes.push('A share of an EC is taken as that share of the reading; EC is nearly in proportion to the feed.');
  switch (figure.kind) {
    case 'element': {
      const reading = ofElement(`mg/L of ${figure.as}`, figure.as, by(figure.mgPerLitre), product);
      if (figure.written !== figure.as) notes.push(`ppm ${figure.written} is turned into ${figure.as}.`);
      return [reading];
    }
    case 'conductivity':
      if (figure.note) notes.push(figure.note);
      notes.push(above ? ABOVE : WHOLE_CAN);
      return [ofEc('EC of the can', by(figure.mSPerCm), product, above)];
    case 'pen':
      notes.push(above ? ABOVE : WHOLE_CAN);
      if (figure.scale === null) needed.push('which scale the pen is on: 500, 640 or 700 ppm per mS/cm');
      return onScales(figure.ppm, figure.scale === null ? SCALES : [figure.scale]);
    case 'ppm':
      needed.push('of what the ppm are: of nitrogen, or on a pen (and then on which scale)');
      if (above) {
        // nobody reads nitrogen above that of the water
        notes.push(ABOVE);
        return onScales(figure.ppm, SCALES);
      }
      notes.push('"ppm" alone may be mg/L of nitrogen or a pen’s reading on any scale: each is shown.', WHOLE_CAN);
      return [
        ofElement('mg/L of N', 'N', by(figure.ppm), product),
        ...(product ? [ofGrams('mg/L of the product itself', scaled(by(figure.ppm), 1 / 1000), product)] : []),
        ...onScales(figure.ppm, SCALES),
      ];
  }
}

const ABOVE = 'The reading is what the feed adds: your own water’s reading is put on top of it.';
const WHOLE_CAN =
  'A meter’s reading is taken as that of the whole can, water included; what the adviser’s own water reads is not told.';

/** Scales that pens show (from memory). */
const SCALES = [500, 640, 700].map((scale) => ({
  name: `${scale} scale`,
  ppmPerMilliSiemens: { low: scale, high: scale },
}));

const reading = (ppm: Span, scale: Span): Span => ({ low: ppm.low / scale.high, high: ppm.high / scale.low });

function ofElement(says: string, element: Nutrient, wanted: Span, product: Graded | null): AdviceReading {
  const per = product?.content[element].stated ?? 0;
  if (product && per > 0) return { ...ofGrams(says, scaled(wanted, 1 / per), product), counts: element, wanted };
  return { says, counts: element, wanted, gramsPerLitre: null, elements: [{ element, ...wanted }], ec: null };
}

/** A reading in mS/cm. What a grade at that reading holds is a range, for its forms are not told. */
function ofEc(plain: string, wanted: Span, product: Graded | null, above: boolean): AdviceReading {
  const says = above ? `${plain}, above the water` : plain;
  const own = above ? ({ aboveWater: true } as const) : {};
  const bare: AdviceReading = { says, counts: 'EC', wanted, gramsPerLitre: null, elements: [], ec: wanted, ...own };
  if (!product) return bare;
  const grams = gramsAt(product.ions, wanted);
  if (grams === null) return bare;
  return { ...ofGrams(says, grams, product), counts: 'EC', wanted, ec: wanted, ...own };
}

/** A share of nobody knows what: what it would be, if the label said what labels often say. */
function ofUnknownBase(
  advice: Advice,
  product: Graded | null,
  where: Where,
  problems: Problem[],
  notes: string[],
  needed: string[],
): AdviceReading[] {
  const share = formatNumber(100 * advice.share, 3);
  needed.push('the rate that this very label calls full strength, for example g/L or spoons per gallon');
  if (!product) return [];
  notes.push(
    `${share} % of a strength that is not told: full strength is whatever that label says, and labels differ tenfold. The rows below only hold if its label says so (common practice, no source).`,
  );
  const rates: RateReadings['readings'] = [];
  for (const [amount, unit, says] of USUAL) {
    const read = readRate(
      { words: '', amount: { low: amount, high: amount }, unit, count: 1, per: 'US gal' },
      advice,
      where,
    );
    problems.push(...(read.ok ? [] : read.problems));
    if (!read.ok) continue;
    rates.push(...read.value.readings.map((r) => ({ ...r, says: `if full is ${says}` })));
    if (rates.length === 1) {
      notes.push(...read.value.notes);
      needed.push(...read.value.needed);
    }
  }
  return rates.map(({ says, gramsPerLitre }) => ofGrams(says, scaled(gramsPerLitre, advice.share), product));
}

/** Full strength on the labels of soluble feeds: common practice, no source. */
const USUAL: readonly [number, string, string][] = [
  [1 / 2, 'US tsp', '1/2 tsp per US gal'],
  [1, 'US tsp', '1 tsp per US gal'],
  [1, 'US tbsp', '1 tbsp per US gal'],
];

const scaled = ({ low, high }: Span, by: number): Span => ({ low: low * by, high: high * by });
