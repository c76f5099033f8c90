import type { Product } from '../label/product.js';
import { type Checked, checked, nearest, type Problem, type Where } from '../problem.js';
import { readCircumstances } from './circumstances.js';
import { readFigures, readScale } from './figures.js';
import { readRate } from './rate.js';
import { number, Rest, refuse, span } from './rest.js';
import type { Advice, Figure, Grade, Rate } from './types.js';
import * as words from './words.js';

/** Whether words that are no recipe of known products are advice: a grade, a share of strength, ppm or a conductivity is named. */
export function isAdvice(text: string, products: readonly Pick<Product, 'id' | 'name'>[]): boolean {
  const plain = ` ${text.toLowerCase()} `;
  const names = products.flatMap((p) => [p.id, p.name]).filter((name) => name !== '' && !/^[\d.-]+$/.test(name));
  if (text.includes('+') && !words.GRADE.exec(text)?.groups?.more) return false;
  if (names.some((name) => plain.includes(` ${name.toLowerCase()} `))) return false;
  return words.GRADE.test(text) || ADVICE.test(text) || BARE_RATE.test(text);
}

const BETWEEN = new RegExp(String.raw`\bbetween\s+(${words.NUMBER})\s+and\s+(${words.NUMBER})`, 'gi');

/** A rate of nothing: `1 tsp/gal`. */
const BARE_RATE = new RegExp(
  String.raw`^\s*[-−]?${words.RANGE}\s*(?:level\s+)?(?:tsp|teaspoons?|tbsp|tablespoons?|g|grams?|oz|ounces?|lb|ml|drops?)\s*(?:\/|per|to the)\s*(?:${words.NUMBER}\s*)?(?:${words.WATER_UNIT})\s*$`,
  'i',
);
const ADVICE =
  /(?<![a-z])(?:weakly|ppm|tds|strength|ec|cf|[mµ]s|us(?!\.?\s*[gqptcfl])|ds|(?:milli|micro)?\s?siemens|mg\s*\/\s*l)\b|µS|(?:full|half|quarter) (?:rate|dose)|(?:label|recommended) (?:rate|dose)/i;

/**
 * Reads what others advise: a rate of a grade, a share of a strength, ppm or a conductivity, ranges included. Everything that is left
 * over is refused with its nearest meaning; what is left open stays open. Every problem at once.
 */
export function parseAdvice(text: string, where: Where = {}): Checked<Advice> {
  const problems: Problem[] = [];
  const rest = new Rest(text.replace(BETWEEN, '$1 to $2'), where, problems);
  if (problems.length > 0) return { ok: false, problems };
  const around = readCircumstances(rest);
  const share = readShare(rest);
  const grade = readGrade(rest);
  const form = rest.take(/\bpowder(?:ed|s)?\b|\bcrystals?\b|\bgranules?\b/i)
    ? 'powder'
    : rest.take(/\bliquids?\b/i)
      ? 'liquid'
      : null;
  rest.drop(words.FILLERS);
  const scale = readScale(rest);
  rest.text = inFigures(rest.text);
  const setApart = SET_APART.test(rest.text);
  const rate = rateWords(rest);
  const figures = readFigures(rest, scale);
  refuseLeftovers(rest);
  if (rate) {
    // units are judged here too, so that all mistakes are told at once
    const units = readRate({ ...rate, count: rate.count || 1 }, { form, grade }, where);
    problems.push(...(units.ok ? [] : units.problems));
  }
  if (scale && problems.length === 0 && figures.every((figure) => figure.kind !== 'pen'))
    refuse(
      rest,
      'advice-scale',
      `"${text.trim()}"`,
      'a reading in ppm beside the scale of a pen',
      'Write for example 200 ppm on a 500 pen, without an element; or leave the pen out.',
    );
  const shareMayBeIn = share !== null && share !== 1 && rate !== null && setApart;
  const advice: Advice = { text: text.trim(), share: share ?? 1, shareMayBeIn, grade, rate, figures, form, around };
  if (problems.every((p) => p.severity !== 'error')) whole(rest, advice, share !== null);
  return checked(advice, problems);
}

function readShare(rest: Rest): number | null {
  const found = rest.take(words.SHARE);
  if (!found) return null;
  if (found.word !== undefined) return words.shareOfWord(found.word);
  const value = number(rest, found.number!) / (found.percent ? 100 : 1);
  if (value > 0 && value <= 4) return value;
  refuse(
    rest,
    'advice-share',
    `"${found.whole}"`,
    'a share of full strength from 0 to 4',
    'Write for example: quarter strength, 1/4 strength or 25 % strength',
  );
  return 1;
}

function readGrade(rest: Rest): Grade | null {
  const found = rest.take(words.GRADE);
  if (!found) return null;
  rest.text = rest.text.replace(/(?:\bof\b\s*)?(?:\b(?:an?|the)\b\s*)?\|/, ' ');
  const [n, p, k] = [number(rest, found.n!), number(rest, found.p!), number(rest, found.k!)];
  const more = [...(found.more ?? '').matchAll(/([\d.,]+)\s?(Ca|Mg|S)/gi)].map(
    ([, value, name]) =>
      [
        name!.length === 1 ? 'S' : name![0]!.toUpperCase() + name!.slice(1).toLowerCase(),
        number(rest, value!),
      ] as const,
  );
  const head = found.elemental ? { N: n, P: p, K: k } : { N: n, P2O5: p, K2O: k };
  return { text: found.whole!, percent: { ...head, ...Object.fromEntries(more) } };
}

/** A rate in brackets, or after a comma, a colon or an equals sign. */
const SET_APART = new RegExp(`[(=:,]\\s*${words.RATE.source}`, 'i');

function rateWords(rest: Rest): Rate | null {
  const found = rest.take(words.RATE);
  if (!found) return null;
  const amount = span(rest, found);
  const count = found.count === undefined ? 1 : number(rest, found.count);
  if (!(count > 0) || !(amount.high > 0))
    refuse(
      rest,
      'advice-rate',
      `"${found.whole}"`,
      'an amount and a volume above zero',
      'Write for example: 1/4 tsp per US gal',
    );
  return { words: found.whole!, amount, unit: found.unit!.trim(), count, per: found.per! };
}

/** Spelled-out amounts of spoons as figures: `a quarter teaspoon` → `1/4 teaspoon`. */
function inFigures(text: string): string {
  const fractions: readonly [RegExp, string][] = [
    [/\bthree[ -]quarters?\b/gi, '3/4'],
    [/\b(?:an?\s+|one\s+)?half\b/gi, '1/2'],
    [/\b(?:an?\s+|one\s+)?quarter\b/gi, '1/4'],
    [/\b(?:an?\s+|one\s+)?third\b/gi, '1/3'],
    [/\b(?:an?\s+|one\s+)?eighth\b/gi, '1/8'],
    [/\bone\b/gi, '1'],
    [/\btwo\b/gi, '2'],
    [/\bthree\b/gi, '3'],
  ];
  const figures = fractions.reduce((sofar, [pattern, to]) => sofar.replace(pattern, to), text);
  return figures
    .replace(/(\/\d)\s+(?:of\s+)?(?:an?\s+)?(?=[a-z])/gi, '$1 ')
    .replace(
      /(?<!\/)(?<!per )(?<!in )(?<!to )\ban?\s+(?=(?:level\s+)?(?:tsp|teaspoon|tbsp|tablespoon|pinch|dash|smidgen|gram|drop|scoop|cap))/gi,
      '1 ',
    );
}

function refuseLeftovers(rest: Rest): void {
  rest.drop(words.JOINTS);
  const left = rest.text.replace(/\|/g, ' ').replace(/\s+/g, ' ').trim();
  if (left === '') return;
  const known = new Set(words.KNOWN_WORDS.map((word) => word.toLowerCase()));
  const strange = left.split(' ').filter((word) => !known.has(word.toLowerCase()) && !/^[\d.]+$/.test(word));
  const guesses = strange.flatMap((word) => nearest(word, words.KNOWN_WORDS, 1).filter(() => word.length > 2));
  const fix = guesses.length > 0 ? `Did you mean ${[...new Set(guesses)].join(', ')}?` : HOW;
  refuse(
    rest,
    'advice-unread',
    `"${strange.length > 0 ? strange.join(' ') : left}" in "${rest.whole.trim()}"`,
    'advice of which every word is understood',
    fix,
  );
}

const HOW =
  'Write for example "1/4 tsp per US gal of 14-4-17", "half strength 20-10-20 at 1 tsp/US gal", "125 ppm N", "EC 0.8 mS/cm" or "200 ppm on a 500 pen".';

/** Whether the parts make one strength. */
function whole(rest: Rest, { text, grade, rate, figures, around }: Advice, shared: boolean): void {
  const found = `"${text}"`;
  const strengths = figures.length + (rate ? 1 : 0);
  if (strengths > 1)
    refuse(
      rest,
      'advice-two-strengths',
      found,
      'one strength: a rate, or one figure',
      'Translate the one and then the other.',
    );
  else if (rate && !grade)
    refuse(
      rest,
      'advice-product',
      `"${rate.words}" of a product that is not named`,
      'the grade of the product',
      'Add it, for example: of 20-20-20. For a product on the shelf write a recipe: 1 g base in 4 L.',
    );
  else if (strengths === 0 && !grade && !shared && /\bweakly\b/i.test(text))
    refuse(
      rest,
      'advice-weakly',
      found,
      'how weak',
      'Many mean by it a quarter strength of the label or less (common practice, no source): write quarter strength 20-20-20, or 50 ppm N.',
    );
  else if (strengths === 0 && !grade)
    refuse(
      rest,
      'advice-base',
      found,
      'a strength, or a share of one',
      shared ? 'Say of what, and what its label calls full strength: half strength 20-10-20 at 1 tsp/US gal.' : HOW,
    );
  else if (strengths === 0 && !shared)
    refuse(rest, 'advice-base', found, 'how much of it', 'Add the rate: 1/4 tsp per US gal of 14-4-17.');
  const wanted = figures[0];
  if (wanted?.kind === 'element' && grade && wanted.as === 'N' && grade.percent.N === 0)
    refuse(rest, 'advice-no-nitrogen', found, 'a product with nitrogen', `A ${grade.text} holds none.`);
  if (wanted?.kind === 'element' && grade && wanted.as !== 'N')
    refuse(
      rest,
      'advice-two-strengths',
      found,
      `mg/L N beside a grade, or ${wanted.as} without one`,
      'Leave the grade out, or give ppm N.',
    );
  if (around.aboveWater && (rate || (wanted && wanted.kind === 'element')))
    refuse(
      rest,
      'advice-above-water',
      found,
      'a reading of a meter beside "above the water"',
      'Leave the water out; what it brings is counted anyway.',
    );
  if (wanted && !(upper(wanted) > 0))
    refuse(rest, 'advice-rate', found, 'a strength above zero', 'Plain water needs no translation.');
}

const upper = (figure: Figure): number =>
  figure.kind === 'element'
    ? figure.mgPerLitre.high
    : figure.kind === 'conductivity'
      ? figure.mSPerCm.high
      : figure.ppm.high;
