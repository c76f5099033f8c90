import type { Product } from '../../label/product.js';
import { type Checked, checked, type Problem, problem, type Where, warning } from '../../problem.js';
import { formatNumber, litres, parseAmount } from '../../units/index.js';
import { unitNamed } from '../../units/table.js';
import { productNamed, productsOfGrade } from '../named-product.js';
import { readLines } from '../recipe-lines.js';
import { masking } from '../recipe-parts.js';
import type { ReadRecipeBy, RecipeLine, WrittenRecipe } from '../recipe-types.js';
import { GRADE } from '../words.js';
import { type Portion, portionsOf } from './portions.js';
import { HOW_OFTEN, inFigures } from './spelled.js';
import { tokensOf } from './tokens.js';

/** A pen, a strength, a stock or an injector is spoken of: other readers know these. */
const OTHERS =
  /\bppm\b|\btds\b|\bec\b|siemens|strength|\bn:|%|\buntil\b|\bpen\b|\bmeter\b|\bscale\b|(?:label|usual|recommended|full) (?:rate|dose)|(?<![\p{L}\d])\d+\s*:\s*\d|\binjector|\bstock\b|\bmg\s*\/\s*l/iu;

const MG_PER_LITRE = /\bmg\s*\/\s*l(?:it(?:re|er)s?)?\b/i;
const MG_PER_LITRE_ALL = new RegExp(MG_PER_LITRE, 'gi');

// by its case, for `US` is whose gallon it is
const CONDUCTIVITY = /\d\s*(?:mS|[µμ]S|uS|dS)\b/;

/**
 * A recipe in plain speech: `a quarter teaspoon Epsom salt per US gallon, weekly`, `1 g/L calcium nitrate and 0.5 g/L Epsom salt`, `per litre: 1 g
 * base, 2 mL kelp`. Each part may have a water of its own. Null where the words are no such recipe, or are advice on a bare grade; every problem
 * at once, a gallon that is not named with what it comes to either way.
 */
export function readSpoken<P extends Product>(
  written: string,
  products: readonly P[],
  by: ReadRecipeBy = {},
  where: Where = {},
): Checked<WrittenRecipe<P>> | null {
  const ofMilligrams = MG_PER_LITRE.test(written);
  const told = written.replace(MG_PER_LITRE_ALL, 'mg per litre ');
  if (OTHERS.test(told) || CONDUCTIVITY.test(written) || written.length > 400) return null;
  const often = written.match(HOW_OFTEN);
  const { masked, unmasked } = masking(told.replace(HOW_OFTEN, ' ').replace(/[.!?\s,]+$/, ''), products);
  const tokens = tokensOf(inFigures(masked));
  const portions = portionsOf(tokens).map((portion) => ({ ...portion, item: unmasked(portion.item) }));
  if (portions.length === 0 || !tokens.some(({ kind }) => kind === 'amount' || kind === 'basis')) return null;
  // `100 mg/L N` is an element, `250 mg/L kelp` a product
  if (ofMilligrams && portions.some(({ item }) => productNamed(item, products, by.onShelf).found.length === 0))
    return null;
  const [only] = portions;
  if (portions.length === 1 && GRADE.test(only!.item) && named(only!.item, products).length === 0) return null;
  const problems: Problem[] = [];
  if (often !== null)
    problems.push(
      warning(
        'recipe-how-often',
        where,
        `"${often[0]}"`,
        'the strength of one can',
        'How often it is given is not judged.',
      ),
    );
  const read = portions.map((portion) => ({ portion, line: lineOf(portion, products, by, where, problems) }));
  const volumes = volumesOf(read, where, problems);
  const first = [...volumes.values()][0] ?? 1;
  const lines = read.flatMap(({ portion: { basis }, line }) =>
    line === null
      ? []
      : [{ ...line, amount: (line.amount * first) / (basis ? (volumes.get(basis.volume) ?? first) : first) }],
  );
  return checked({ text: written.trim(), lines, volumeLitres: litres(first) }, problems);
}

/** Whether words are a recipe of several parts, however much of it is understood. */
export const hasSeveralParts = (written: string, products: readonly Product[]): boolean =>
  !OTHERS.test(written) &&
  portionsOf(tokensOf(inFigures(masking(written, products).masked))).filter(({ amounts }) => amounts.length > 0)
    .length > 1;

const named = (item: string, products: readonly Product[]): Product[] =>
  products.filter(({ id, name }) => [id, name].some((text) => text.toLowerCase() === item.toLowerCase()));

function lineOf<P extends Product>(
  { amounts, item }: Portion,
  products: readonly P[],
  by: ReadRecipeBy,
  where: Where,
  problems: Problem[],
): RecipeLine<P> | null {
  if (amounts.length > 1) {
    problems.push(
      problem(
        'recipe-amount',
        where,
        `"${amounts.join(' and ')}" of ${item === '' ? 'one product' : `"${item}"`}`,
        'one amount of it',
        'Write the one that you measure: the two may differ.',
      ),
    );
    return null;
  }
  const [amount = ''] = amounts;
  if (item === '') {
    problems.push(
      problem('recipe-product', where, `"${amount}"`, 'of which product', 'Write its name behind the amount.'),
    );
    return null;
  }
  if (CEILING.test(item)) {
    problems.push(
      problem(
        'recipe-amount',
        where,
        `"${item}"`,
        'an amount, not a bound',
        'Write the amount that you would give: it is judged as it stands.',
      ),
    );
    return null;
  }
  const graded = GRADE.test(item) && named(item, products).length === 0 ? GRADE.exec(item)![0] : null;
  const owned = graded === null ? [] : productsOfGrade(graded, products, by.onShelf);
  if (graded !== null && owned.length !== 1) {
    problems.push(gradeUnknown(graded, owned, where));
    return null;
  }
  const [line] = readLines([`${amount} ${owned[0]?.id ?? item}`.trim()], products, by, where, problems);
  return line !== undefined && line.amount !== null ? line : null;
}

const CEILING =
  /\b(?:not|never|more than|less than|up to|most|least|max(?:imum)?|min(?:imum)?|under|over|below|above)\b/i;

const gradeUnknown = (grade: string, owned: readonly Product[], where: Where): Problem =>
  problem(
    'recipe-product',
    where,
    `"${grade}"`,
    'one product of the shelf',
    owned.length > 1
      ? `It may be ${owned.map(({ id }) => id).join(' or ')}: write the id.`
      : `No label of ${grade} stands on the shelf: put it there, or ask for it alone (1 g/L of ${grade}), which is answered as a range.`,
  );

interface ReadPortion<P> {
  portion: Portion;
  line: RecipeLine<P> | null;
}

/** Litres of each water that is told; what can be meant in two ways is asked back with what it comes to. */
function volumesOf<P extends Product>(
  read: readonly ReadPortion<P>[],
  where: Where,
  problems: Problem[],
): Map<string, number> {
  const volumes = new Map<string, number>();
  const dry = read.filter(({ portion }) => portion.basis === null);
  if (dry.length > 0) {
    const words = dry.map(({ portion }) => `${portion.amounts[0] ?? ''} ${portion.item}`.trim()).join(' and ');
    problems.push(
      problem(
        'recipe',
        where,
        `"${words}"`,
        'how much water it is for',
        'Write for example per litre, per US gal or in 4 L behind it.',
      ),
    );
  }
  for (const volume of new Set(read.flatMap(({ portion }) => portion.basis?.volume ?? []))) {
    const amount = parseAmount(volume, { where });
    if (amount.ok && amount.value.kind === 'volume' && amount.value.millilitres > 0) {
      volumes.set(volume, amount.value.millilitres / 1000);
      problems.push(...amount.warnings);
    } else if (amount.ok)
      problems.push(
        problem('recipe-volume', where, `"${volume}"`, 'a volume of water above zero', 'Write for example per litre.'),
      );
    else problems.push(...(whichVolume(volume, read, where) ?? amount.problems));
  }
  return volumes;
}

function whichVolume<P extends Product>(
  volume: string,
  read: readonly ReadPortion<P>[],
  where: Where,
): Problem[] | null {
  const [, count = '1', word = ''] = /^(.*\S)\s+([a-z]+)\.?$/i.exec(volume) ?? [];
  const unit = /^g/i.test(word) ? 'gal' : /^q/i.test(word) ? 'qt' : /^p/i.test(word) ? 'pt' : null;
  if (unit === null) return null;
  const said = (['US', 'imperial'] as const).map((from) => {
    const name = `${from} ${unit}`;
    const one = unitNamed(name)!;
    const of = parseAmount(`${count} ${name}`);
    const held = of.ok && of.value.kind === 'volume' ? of.value.millilitres / 1000 : one.times / one.over / 1000;
    const each = read.flatMap(({ portion, line }) =>
      portion.basis?.volume === volume && line
        ? [`${formatNumber(line.amount / held, 3)} ${line.product.composition.per}/L of ${line.product.id}`]
        : [],
    );
    return each.length === 0 ? name : `${name} (${each.slice(0, 3).join(', ')})`;
  });
  return [
    problem(
      'recipe-volume',
      where,
      `"${volume}"`,
      `which one: US ${unit} or imperial ${unit}`,
      `Write ${said.join(' or ')}.`,
    ),
  ];
}
