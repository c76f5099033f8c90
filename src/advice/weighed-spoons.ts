import type { Product } from '../label/product.js';
import { type Checked, checked, type Problem, problem, type Where } from '../problem.js';
import { powerOfTen } from '../units/elementary.js';
import { isWithin, type Millilitres, parseAmount, rangeText, spelledOut } from '../units/index.js';
import { productNamed } from './named-product.js';
import { productOf, unknownProduct } from './recipe-product.js';
import { CARDINAL, PARTS, TENS } from './spoken/spelled.js';

/** `ten level 1/4 tsp of base weigh 11.2 g`, taken apart. */
export interface WeighedSpoons<P = Product> {
  product: P;
  /** The spoon in the grower's words, without how many: `1/4 tsp`. */
  spoon: string;
  millilitres: Millilitres;
  count: number;
  /** All of them together, and the last digit they were told to. */
  grams: number;
  step: number;
}

const N = String.raw`\d+(?:[.,]\d+)?(?:\s*\/\s*\d+)?`;
const BEFORE = String.raw`(?<![\d\p{L}.,/–-])`;
const MASS = new RegExp(
  `${BEFORE}(\\d+(?:[.,]\\d+)?)\\s*(g|gr|gms?|grams?|grammes?|mg|milligrams?|kg|oz|ounces?)(?![\\p{L}\\d])`,
  'giu',
);
const RANGE = /\d\s*(?:-|–|to|or|and)\s*\d+(?:[.,]\d+)?\s*(?:g|gr|gms?|grams?|oz)(?![\p{L}\d])/iu;
const HOLDER = String.raw`(?:(?:us|metric)\s+)?(?:tsps?|teaspoon(?:ful)?s?|tbsps?|tbs|tablespoon(?:ful)?s?|ml|millilit(?:re|er)s?|cc|dash(?:es)?|pinch(?:es)?|smidgens?|tads?)(?:\s+(?:measur(?:e|ing)\s+)?spoon(?:ful)?s?)?`;
const LEVEL = String.raw`(?:(?:level(?:led|ed)?|flat|struck|full)\s+)`;
const MANY = String.raw`(?:\d+|${CARDINAL})`;
const SPOON = new RegExp(
  String.raw`${BEFORE}(?:(?<many>${MANY})(?<joint>\s*(?:(?:x|×|\*|times)\s*)?${LEVEL}?(?:spoon(?:ful)?s\s+of\s+)?))??${LEVEL}?(?:an?\s+)?(?:(?<size>${N})\s*)?${LEVEL}?(?<unit>${HOLDER})(?![\p{L}\d])`,
  'iu',
);
/** `1/4 tsp of base, 10 times`. */
const TAIL = new RegExp(
  String.raw`(?<![\p{L}\d])(?:(?:x|×|\*)\s*(?<after>${MANY})|(?<times>${MANY})\s*times)(?![\p{L}\d/.,])`,
  'iu',
);
const IDLE =
  /(?<![\p{L}\d])(?:i|we|my|our|the|that|this|a|an|of|on|in|it|they|to|for|per|at|and|all|level|levelled|leveled|weigh(?:s|ed|ing|t)?|got|is|are|was|were|be|come|comes|came|make|makes|made|give|gives|gave|have|has|together|total|each|about|around|exactly|just|kitchen|scales?|digital|powder|spoons?|spoonfuls?)(?![\p{L}\d])/giu;
const ASIDE = /\b(?:bowl|cup|jar|tray|paper|container|dish|tub|tare|saucer|plate)\b/i;

/**
 * Reads what level spoons weigh, as it is said: `ten level 1/4 tsp of part-c weigh 11.2 g`, `10 x 1/4 tsp part-c = 11.2 g`, `a level teaspoon
 * of base is 5.1 g`, `11 g for ten quarter teaspoons of base`. Every problem at once; what may mean two things is asked back.
 * @param named the product where the words do not tell it
 */
export function readWeighedSpoons<P extends Product>(
  written: string,
  products: readonly P[],
  { onShelf, named }: { onShelf?: ReadonlySet<string>; named?: P } = {},
  where: Where = {},
): Checked<WeighedSpoons<P>> {
  const problems: Problem[] = [];
  const refuse = (found: string, expected: string, fix = EXAMPLE): void => {
    problems.push(problem('weighed-spoons', where, found, expected, fix));
  };
  const { text, product: whole, called } = withoutName(inFractions(written), products);
  if (/\b(?:heaped|heaping|rounded|scant|generous|big)\b/i.test(text))
    refuse(
      `"${written}"`,
      'level spoons',
      'Stroke each spoon level with a knife and weigh again: heaps differ by half.',
    );
  if (ASIDE.test(text))
    refuse(`"${written}"`, 'the powder alone', 'Take the weight of the bowl off and write the rest.');
  const masses = [...text.matchAll(MASS)];
  if (RANGE.test(text) || masses.length > 1)
    refuse(`"${written}"`, 'one weight, of all the spoons together', 'Write the one that the scale showed.');
  else if (masses.length === 0) refuse(`"${written}"`, 'what they weigh', EXAMPLE);
  const rest = text.replace(MASS, ' | ');
  const spoon = SPOON.exec(rest);
  const behind = spoon === null ? rest : rest.replace(SPOON, ' | ');
  const tail = TAIL.exec(behind);
  const told = spoon === null ? null : spoonOf({ ...spoon.groups, ...tail?.groups });
  if (told === null) refuse(`"${written}"`, 'which spoon, and how many');
  else if ('unclear' in told)
    refuse(`"${told.unclear}"`, 'how many of which spoon', `Write for example ${told.meant}.`);
  const left = behind
    .replace(TAIL, ' | ')
    .replace(IDLE, ' ')
    .split(/[\s|:;=~,!?]+|\.(?=\s|$)/);
  const words = left.filter((word) => word !== '' && !/^[-–—.()]+$/.test(word)).join(' ');
  const reading = { products, where, problems, ...(onShelf ? { onShelf } : {}) };
  const product = productMeant(words === NAME ? '' : words.replace(NAME, called), whole, named, written, reading);
  if (told === null || 'unclear' in told || masses.length !== 1) return checked(null as never, problems);
  const volume = parseAmount(told.words, { where });
  if (!volume.ok) problems.push(...volume.problems);
  else if (volume.value.kind !== 'volume' || !isWithin('spoon', volume.value.millilitres))
    refuse(`"${told.words}"`, `a spoon ${rangeText('spoon')}`);
  else if (!(told.count >= 1 && told.count <= MOST)) refuse(`${told.count} spoons`, `1 to ${MOST} spoons`);
  else if (product !== undefined) {
    const [, number, unit] = masses[0]!;
    const mass = parseAmount(`${number} ${unit}`, { where });
    if (!mass.ok) problems.push(...mass.problems);
    else if (mass.value.kind === 'mass') {
      const times = /(?<![\p{L}])each(?![\p{L}])/iu.test(text) ? told.count : 1;
      const digits = /[.,](\d+)$/.exec(number!)?.[1]?.length ?? 0;
      const figure = Number(number!.replace(',', '.'));
      const grams = mass.value.grams * times;
      if (!(grams > 0)) refuse(`"${number} ${unit}"`, 'a weight above nothing');
      const step = figure > 0 ? (grams / figure) * powerOfTen(-digits) : 0;
      const value = {
        product,
        spoon: told.words,
        millilitres: volume.value.millilitres,
        count: told.count,
        grams,
        step,
      };
      return checked(value, [...problems, ...volume.warnings, ...mass.warnings]);
    }
  }
  return checked(null as never, problems);
}

const EXAMPLE = 'Write for example: ten level 1/4 tsp of part-c weigh 11.2 g';
const MOST = 1000;

/** Stands for a name, which no text uses. */
const NAME = '\uE000';

/** The name that stands in the words whole, taken out of them. */
function withoutName<P extends Product>(
  text: string,
  products: readonly P[],
): { text: string; product: P | null; called: string } {
  const names = products.flatMap((product) => [product.id, product.name].map((name) => ({ name, product })));
  for (const { name, product } of names.sort((a, b) => b.name.length - a.name.length)) {
    const at = new RegExp(`(?<![\\p{L}\\d-])${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}\\d-])`, 'iu');
    const found = at.exec(text)?.[0];
    if (found !== undefined) return { text: text.replace(at, ` ${NAME} `), product, called: found };
  }
  return { text, product: null, called: '' };
}

function productMeant<P extends Product>(
  words: string,
  whole: P | null,
  named: P | undefined,
  written: string,
  reading: Parameters<typeof productOf<P>>[1],
): P | undefined {
  const { problems, where } = reading;
  // `Epsom salt` where the id is epsom
  const isMore = whole !== null && words !== '' && productNamed(words, reading.products).found[0]?.id !== whole.id;
  const told = whole ?? (words === '' ? undefined : (productOf(words, reading) ?? null));
  if (isMore) problems.push(problem('weighed-spoons', where, `"${words}"`, 'spoons, a product and a weight', EXAMPLE));
  else if (told === null && !problems.some(({ code }) => code === 'recipe-product'))
    problems.push(unknownProduct(words, words, reading));
  else if (told === undefined && named === undefined)
    problems.push(problem('weighed-spoons', where, `"${written}"`, 'of which product', EXAMPLE));
  else if (told && named && told.id !== named.id)
    problems.push(
      problem('weighed-spoons', where, `${told.id} beside ${named.id}`, 'one product', 'Leave one of them out.'),
    );
  return told ?? named;
}

/** Parts of a spoon in words as fractions: `quarter teaspoons` → `1/4 teaspoons`, `half a tsp` → `1/2 tsp`. */
function inFractions(text: string): string {
  const part = new RegExp(
    `(?<![\\p{L}\\d])(${[...PARTS.keys()].join('|')})s?[ -](?:of\\s+)?(?:an?\\s+)?(?=(?:us |metric )?(?:tea|table|tsp|tbsp))`,
    'giu',
  );
  return spelledOut(text)
    .replace(/[’‘]/g, "'")
    .replace(part, (_, word: string) => `${PARTS.get(word.toLowerCase())} `);
}

type Told = { words: string; count: number } | { unclear: string; meant: string };

function spoonOf({ many, joint, size, unit = '', after, times }: Record<string, string | undefined>): Told {
  const holder = unit.replace(/spoonful/i, 'spoon').replace(/\s+(?:measur\w+\s+)?spoons?$/i, '');
  const number = (word: string | undefined): number | undefined =>
    word === undefined ? undefined : (TENS.get(word.toLowerCase()) ?? Number(word));
  const [before, behind] = [number(many), number(after ?? times)];
  if (before !== undefined && behind !== undefined)
    return { unclear: `${many} and ${after ?? times}`, meant: `10 x ${size ?? '1/4'} ${holder}` };
  // `10 1/4 tsp` is ten quarters, or ten and a quarter
  if (joint?.trim() === '' && /^\d+$/.test(many ?? '') && /\//.test(size ?? ''))
    return { unclear: `${many} ${size} ${holder}`, meant: `${many} x ${size} ${holder}` };
  const isSpoon = !/^(?:ml|millil|cc)/i.test(holder);
  // `10 tsp` are ten spoons of one, `5 ml` is one spoon of five
  if (before === undefined && behind === undefined && isSpoon && size !== undefined && !/[./,]/.test(size))
    return { words: `1 ${holder}`, count: Number(size) };
  return { words: `${size ?? '1'} ${holder}`, count: before ?? behind ?? 1 };
}
