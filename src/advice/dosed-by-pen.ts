import { ionsOfWater, type MakeUp, plus, usualIons } from '../can/ec.js';
import { isSettled, MODEL_ERROR } from '../can/part.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';
import type { Ions } from '../chemistry/ions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { type Checked, checked, type Problem, problem, type Where, warning } from '../problem.js';
import { formatNumber, type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import { hypot } from '../units/elementary.js';
import { amountFor, type Conducting } from '../can/amount-for-reading.js';
import type { PenLine, Recipe, RecipeLine, ToldByPen, WrittenRecipe } from './recipe-types.js';

/** How the pen was used on the can. */
export interface PenOnCan {
  /** What the pen shows in the water alone, mS/cm at 25 °C; absent: what its analysis says. */
  waterMSPerCm?: MilliSiemensPerCm;
  /** What every reading is multiplied by; default 1. */
  factor?: number;
}

/**
 * A recipe with every reading turned into grams or millilitres, by the full model of the can as it stands at that moment: water in equal
 * shares, all of it in the can from the start, and every line in the order told. The range of an amount is worked out by telling the whole
 * recipe again for each make-up that labels leave open and for each end of the error of the model. Refused is what a product cannot show.
 */
export function dosedByPen(
  recipe: WrittenRecipe<ClosedProduct>,
  waters: readonly Water[],
  { waterMSPerCm, factor = 1 }: PenOnCan = {},
  where: Where = {},
): Checked<Recipe> {
  const isPen = (line: (typeof recipe.lines)[number]): line is PenLine => line.amount === null;
  if (!recipe.lines.some(isPen)) return checked({ ...recipe, lines: recipe.lines as RecipeLine[] }, []);
  const problems: Problem[] = [];
  const { volumeLitres: litres } = recipe;
  const share = 1 / Math.max(1, waters.length);
  const water = waters.reduce((sum, w) => plus(sum, ionsOfWater(w), share), NONE);
  const cans = casesOf(recipe.lines.map(({ product }) => product)).map(
    ({ which, error }) => new Can(water, which, error, waterMSPerCm),
  );
  const lines = recipe.lines.map((line): RecipeLine => {
    if (!isPen(line)) {
      for (const can of cans) can.add(line.product, line.amount / litres);
      return line;
    }
    const { product, told } = line;
    const before = cans[0]!.shows();
    const found: Conducting[] = [];
    for (const can of cans) found.push(can.until(product, can.aimOf(told, factor), found[0]));
    const [likely] = found;
    const refused = refusal(line, likely!, before, where);
    problems.push(...refused);
    // what is refused is left out, so that the lines after it can be told too
    const perLitre = found.map(({ amount }) => (refused.every(isWarning) ? amount : 0));
    for (const [i, can] of cans.entries()) can.add(product, perLitre[i]!);
    const after = cans[0]!.shows();
    return {
      product,
      words: line.words,
      amountWords: line.amountWords,
      amount: perLitre[0]! * litres,
      bySpoon: false,
      spoonful: null,
      byPen: {
        told,
        low: Math.min(...perLitre) * litres,
        high: Math.max(...perLitre) * litres,
        before,
        after,
        sd: (readingSd(told, before, after) * perLitre[0]! * litres) / Math.max(1e-9, after - before),
      },
    };
  });
  return checked({ ...recipe, lines }, problems);
}

const isWarning = ({ severity }: Problem): boolean => severity === 'warning';

/** Make-ups of the labels and ends of the model's error; first the likeliest. */
function casesOf(products: readonly ClosedProduct[]): { which: MakeUp; error: number }[] {
  const which: readonly MakeUp[] = products.every(isSettled)
    ? ['value']
    : ['value', 'leastConductive', 'mostConductive', 'acid', 'alkaline'];
  return [0, -MODEL_ERROR, MODEL_ERROR].flatMap((error) => which.map((w) => ({ which: w, error })));
}

/** Relative sd of one reading of a pen that was checked (common practice, no source), and half of its last digit, mS/cm. */
const PEN_SPREAD = 0.02;
const LAST_DIGIT = 0.005;

/** Standard deviation of what a reading, or the difference of two, says; mS/cm. */
const readingSd = ({ by }: ToldByPen, before: number, after: number): number =>
  by === 'until' ? hypot(PEN_SPREAD * after, LAST_DIGIT) : hypot(PEN_SPREAD * (after - before), LAST_DIGIT, LAST_DIGIT);

/** The can in one case of what labels leave open. */
class Can {
  #ions: Ions;
  readonly #bare: number;
  constructor(
    water: Ions,
    private readonly which: MakeUp,
    private readonly error: number,
    private readonly reading: MilliSiemensPerCm | undefined,
  ) {
    this.#ions = water;
    this.#bare = conductivity(water);
  }

  /** mS/cm at 25 °C; a reading of the water itself is right about the water. */
  shows(ions = this.#ions): MilliSiemensPerCm {
    const model = conductivity(ions);
    if (this.reading === undefined) return milliSiemensPerCm(model * (1 + this.error));
    return milliSiemensPerCm(this.reading + (model - this.#bare) * (1 + this.error));
  }

  add(product: ClosedProduct, perLitre: number): void {
    this.#ions = plus(this.#ions, usualIons(product, this.which), perLitre);
  }

  /** What the can shows once the pen showed what was told. */
  aimOf({ by, mSPerCm }: ToldByPen, factor: number): number {
    return (by === 'more' ? this.shows() : 0) + mSPerCm * factor;
  }

  /** g or mL per litre of a product that bring the can to a reading. @param near what it was in another case */
  until(product: ClosedProduct, aim: number, near?: Conducting): Conducting {
    const [ions, more] = [this.#ions, usualIons(product, this.which)];
    const most = MOST_PER_LITRE[product.composition.per];
    const guess = near?.kind === 'found' ? near.amount : undefined;
    return amountFor((x) => this.shows(plus(ions, more, x)) - aim, most, guess);
  }
}

/** No feed holds more of one product, g or mL in a litre (judgement). */
const MOST_PER_LITRE = { g: 5, mL: 50 } as const;
/** How many times over its label's rate nobody means a product to be (judgement); up to there it is told, and counted as it was given. */
const FAR_OVER = 3;
/** Below this, mS/cm for each g/L or mL/L, a product moves no pen: salts bring 0.5 to 2 a gram (see the reference tables). */
const BLIND = { g: 0.02, mL: 0.002 } as const;

function refusal(
  { product, words, told: { scale } }: PenLine,
  { kind, amount, slope }: Conducting,
  before: MilliSiemensPerCm,
  where: Where,
): Problem[] {
  const { id, maxRate } = product;
  const { per } = product.composition;
  const unit = per === 'g' ? 'grams' : 'millilitres';
  const show = (mSPerCm: number): string =>
    scale === null
      ? `${formatNumber(mSPerCm, 3)} mS/cm`
      : `${formatNumber(mSPerCm * scale, 3)} ppm on the ${scale} scale`;
  if (kind === 'past')
    return [
      problem(
        'pen-past',
        where,
        `"${words}"`,
        `a reading above the ${show(before)} that the can shows before it`,
        'Check the figure and the order told; for so much more than before, write it without "until".',
      ),
    ];
  if (slope < BLIND[per])
    return [
      problem(
        'pen-blind',
        where,
        `"${words}"`,
        `${unit} of ${id}, which does not show on a pen`,
        `${id} does not show on a pen: give ${unit}, for example 1 ${per} ${id}.`,
      ),
    ];
  if (kind === 'too much')
    return [
      problem(
        'pen-too-much',
        where,
        `"${words}"`,
        `a reading that ${MOST_PER_LITRE[per]} ${per}/L of ${id} can bring`,
        `Check the figure and its unit: so much ${id} moves the pen by ${show(slope * MOST_PER_LITRE[per])}. Or give ${unit}.`,
      ),
    ];
  if (maxRate === undefined || amount <= maxRate) return [];
  const told = amount > FAR_OVER * maxRate ? problem : warning;
  return [
    told(
      'pen-over-rate',
      where,
      `"${words}"`,
      `at most ${formatNumber(maxRate, 3)} ${per}/L of ${id}, as its label says`,
      `It takes ${formatNumber(amount, 3)} ${per}/L to move the pen so far; ${id} is better told in ${unit}.`,
    ),
  ];
}
