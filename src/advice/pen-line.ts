import { atDoor } from '../door.js';
import type { Product } from '../label/product.js';
import { type Problem, problem, type Where } from '../problem.js';
import { commaNotes, formatNumber, inMilliSiemens, readFigure } from '../units/index.js';
import type { PenWords } from './pen-words.js';
import type { PenLine, ToldByPen } from './recipe-types.js';
import { productOf, type Reading, unknownProduct } from './recipe-product.js';

/** Feeds stay below 5; nothing a pen for growers shows is beyond this, mS/cm. */
const MOST = 20;
/** Pens that show ppm show whole numbers; below this a bare number is mS/cm. */
const LEAST_PPM = 5;

/** What the pen tells of a product, `before` being the one told before it. Problems are added to those told already. */
export function readPenLine<P extends Product>(
  pen: PenWords,
  part: string,
  before: P | undefined,
  reading: Reading<P>,
): PenLine<P>[] {
  const { problems, where } = reading;
  const product = productMeant(pen, part, before, reading);
  const told = toldBy(pen, part, product, reading);
  if (!told || !product) return [];
  if (told.mSPerCm > 0 && told.mSPerCm <= MOST)
    return [{ product, words: part, amountWords: part, amount: null, told }];
  problems.push(
    problem(
      'pen-reading',
      where,
      `"${part}"`,
      `a reading above 0, up to ${MOST} mS/cm`,
      told.mSPerCm > 0 && pen.unit === null
        ? atDoor({
            typed: `Write the unit: ${pen.figure} µS/cm, or ${pen.figure} ppm with --scale 500 (or 640, 700).`,
            page: `Write the unit: ${pen.figure} µS/cm, or ${pen.figure} ppm and choose the scale of your pen in Plants.`,
          })
        : 'Check the number and its unit.',
    ),
  );
  return [];
}

function productMeant<P extends Product>(
  { name, by }: PenWords,
  part: string,
  before: P | undefined,
  reading: Reading<P>,
): P | undefined {
  const { problems, where } = reading;
  if (name === '') {
    if (before === undefined)
      problems.push(
        problem('recipe-product', where, `"${part}"`, 'of which product', 'Write its name before the reading.'),
      );
    return before;
  }
  const product = productOf(name, reading);
  if (product !== null) return product;
  const amount = by === 'until' ? AMOUNT.exec(name) : null;
  problems.push(
    amount
      ? problem(
          'recipe-pen',
          where,
          `"${part}"`,
          'an amount, or what the pen is to show',
          `Write one after the other: ${name}, then ${amount[1]!} until ….`,
        )
      : unknownProduct(part, name, reading),
  );
  return undefined;
}

/** An amount before a name. */
const AMOUNT = /^(?:an?\s+)?(?:level\s+)?[\d.,/\s¼½¾⅓⅔⅛]+\s*(?:(?:US|metric)\s+)?[a-zµ]+\s+(?:of\s+)?(.+)$/i;

/** The reading in mS/cm; undefined where it was refused. */
function toldBy(
  { by, figure, unit }: PenWords,
  part: string,
  product: Product | undefined,
  { scale = null, where, problems }: Pick<Reading<Product>, 'scale' | 'where' | 'problems'>,
): ToldByPen | undefined {
  const read = readFigure(figure);
  if (!read.ok || read.value.words !== '') {
    problems.push(
      read.ok
        ? problem(
            'recipe-pen',
            where,
            `"${figure}"`,
            'one reading, not a range',
            'Write the one that the pen is to show.',
          )
        : problem('recipe-pen', where, read.found, read.expected, read.fix),
    );
    return undefined;
  }
  problems.push(...commaNotes(read.comma, where));
  const number = read.value.value;
  const asked = unit ?? (scale !== null && number >= LEAST_PPM ? 'ppm' : 'mS/cm');
  const bare = unit === null && scale === null && number > MOST;
  if ((asked === 'ppm' && scale === null) || bare) {
    if (problems.every(({ code }) => code !== WHICH_SCALE)) problems.push(whichScale(part, figure, product, where));
    return undefined;
  }
  const isPpm = asked === 'ppm';
  const mSPerCm = inMilliSiemens({ number, unit: asked }, scale);
  return { by, mSPerCm, ppm: isPpm ? number : null, scale: isPpm ? scale : null };
}

const WHICH_SCALE = 'ppm-without-scale';

/** ppm are nothing without the scale of the pen; asked once for the whole recipe. */
function whichScale(part: string, figure: string, product: Product | undefined, where: Where): Problem {
  const micro = (scale: number): string => formatNumber((1000 * Number(figure.replace(',', '.'))) / scale, 3);
  const meant = product === undefined ? '' : ` of ${product.id}`;
  return problem(
    WHICH_SCALE,
    where,
    `"${part}"`,
    'which scale the pen is on: 500, 640 or 700 ppm per mS/cm',
    atDoor({
      typed: `Add --scale 500 (or 640, 700), write pen: { scale: 500 } in bench.yaml, or give µS/cm: ${figure} ppm${meant} are ${micro(500)} µS on the 500 scale, ${micro(640)} µS on 640, ${micro(700)} µS on 700.`,
      page: `Choose the scale of your pen in Plants, or give µS/cm: ${figure} ppm${meant} are ${micro(500)} µS on the 500 scale, ${micro(640)} µS on 640, ${micro(700)} µS on 700.`,
    }),
  );
}
