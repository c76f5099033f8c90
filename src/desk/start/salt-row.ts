import type { Catalog } from '../../catalog/catalog.js';
import { saltNamed } from '../../chemistry/salts.js';
import { parseFormula, nutrientsPerGram } from '../../chemistry/formula.js';
import { NITROGEN_FORMS, NUTRIENTS, type Nutrient } from '../../chemistry/nutrients.js';
import { withoutPack } from '../../label/printed-pack.js';
import type { Product } from '../../label/product.js';
import { type Problem, problem } from '../../problem.js';
import { formatNumber, identityOf } from '../../units/index.js';

/** A plain salt that was named instead of a label: that of the catalog, and the others that its name may mean. */
export interface NamedSalt {
  salt: Product;
  others: readonly string[];
}

/**
 * The salt of the catalog that is meant by a name (`Epsom salt`, `potassium nitrate`), or by several names of it (`Epsom salt, magnesium
 * sulfate heptahydrate`), beside the size and price of a pack or none; undefined where none is.
 */
export function saltMeant(text: string, catalog: Pick<Catalog, 'salts'>): NamedSalt | undefined {
  const words = withoutPack(text);
  const whole = named(words, catalog);
  if (whole !== undefined) return whole;
  const parts = words
    .split(/[,;|()\n=]|\s[-–—/]\s|\bor\b|\baka\b/i)
    .map((part) => part.trim())
    .filter((part) => plain(part) !== '' || part.includes('/'));
  const meant = parts.map((part) => named(part, catalog));
  const [first] = meant;
  return parts.length > 0 && first !== undefined && meant.every((one) => one?.salt.id === first.salt.id)
    ? // the narrowest name tells which one
      (meant.find((one) => one!.others.length === 0) ?? first)
    : undefined;
}

function named(text: string, { salts }: Pick<Catalog, 'salts'>): NamedSalt | undefined {
  const name = text.trim().replace(/[.;,\s]+$/, '');
  if (name.length > 80 || name.includes('\n')) return undefined;
  const wanted = plain(name);
  if (wanted === '') return undefined;
  const formula = saltNamed(name)?.formula ?? formulaIn(name);
  const salt =
    salts.find((one) => plain(one.id) === wanted) ??
    salts.find((one) => namesOf(one).includes(wanted)) ??
    salts.find((one) => formula !== undefined && one.formula === formula);
  if (salt === undefined) return undefined;
  const others = salts.filter((one) => one !== salt && plain(one.name).startsWith(`${wanted} `)).map((one) => one.id);
  return { salt, others };
}

/** `MgSO4·7H2O` as it is written in the catalog. */
function formulaIn(name: string): string | undefined {
  const read = /\d/.test(name) ? parseFormula(name) : undefined;
  return read?.ok ? read.value.text : undefined;
}

/** A plain salt that is named a second time, by this name or another. */
export function saltTwice(texts: readonly string[], catalog: Pick<Catalog, 'salts'>): Problem | undefined {
  const meant = texts.map((text) => saltMeant(text, catalog)?.salt.id);
  const at = meant.findIndex((id, i) => id !== undefined && meant.indexOf(id) < i);
  if (at < 0) return undefined;
  const fix = 'Leave it out; two packs of one salt are one row.';
  return problem(
    'salt-twice',
    { field: '--label' },
    `"${texts[at]!.trim()}", which is ${meant[at]} again`,
    'each salt once',
    fix,
  );
}

/** Letters and figures, blind to grade, case and brackets. */
const plain = (name: string): string =>
  identityOf(name)
    .replace(/\b\d{1,2}(?:\.\d)?-\d{1,2}(?:\.\d)?-\d{1,2}(?:\.\d)?\b/g, ' ')
    .replace(/sulph/g, 'sulf')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** `Magnesium sulfate heptahydrate (Epsom salt)` answers to both. */
const namesOf = ({ name }: Product): string[] =>
  [name, name.replace(/\(.*\)/, ''), /\((.*)\)/.exec(name)?.[1] ?? ''].map(plain);

/** The cells of a salt on a shelf of one's own: nobody knows yet what it cost and how much is left. */
export function saltCells(salt: Product): Map<string, string> {
  const { id, name, form, formula, density, bulkDensity, maxRate, derivedFrom, notes } = salt;
  const unit = form === 'powder' ? 'g/L' : 'mL/L';
  return new Map([
    ['id', id],
    ['name', name],
    ['form', form],
    ...(formula === undefined ? percentCells(salt) : pureCells(salt, formula)),
    ...(density === undefined ? [] : [['density', formatNumber(density)] as const]),
    ...(bulkDensity === undefined ? [] : [['bulk_density', formatNumber(bulkDensity)] as const]),
    ['derived_from', derivedFrom.join('; ')],
    ...(maxRate === undefined ? [] : [['max_rate', `${formatNumber(maxRate)} ${unit}`] as const]),
    ['kind', salt.kind ?? ''],
    ['source', salt.source],
    ['evidence', salt.evidence],
    ['notes', notes],
  ]);
}

/** A pure salt, or a product that holds a share of it. */
function pureCells(salt: Product, formula: string): [string, string][] {
  const read = parseFormula(formula);
  const pure = read.ok ? nutrientsPerGram(read.value) : null;
  const main = NUTRIENTS.find((nutrient) => pure !== null && pure[nutrient] > 0 && nutrient !== 'N');
  const purity = pure === null || main === undefined ? 100 : (1000 * (percentOf(salt, main) ?? 0)) / pure[main];
  return [['formula', formula], ...(purity > 99.9 ? [] : [['purity', formatNumber(purity, 3)] as [string, string]])];
}

function percentCells(salt: Product): [string, string][] {
  return NUTRIENTS.flatMap((nutrient): [string, string][] => {
    const percent = percentOf(salt, nutrient);
    const isForm = (NITROGEN_FORMS as readonly string[]).includes(nutrient);
    return percent === null || (percent === 0 && !isForm) ? [] : [[nutrient, formatNumber(percent, 4)]];
  });
}

/** % by mass of the element; null where the row does not tell it. */
function percentOf({ composition, density = 1 }: Product, nutrient: Nutrient): number | null {
  const { stated } = composition.content[nutrient];
  return stated === null ? null : stated / 10 / (composition.per === 'mL' ? density : 1);
}
