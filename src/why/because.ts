import type { Row } from '../../solver/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated, Limit } from '../formulation/formulate.js';
import { type Ratio, ratioOfRule } from '../formulation/ratio.js';
import { allRules, type FeedRequest } from '../feed/request.js';
import { waterContent } from '../feed/terms.js';
import { formatNumber } from '../units/index.js';

/** Sentences kept for one limit; the first ones tell the story. */
const MOST = 6;

/** Everything that the reasons of a conflict are told from. */
export interface Clash {
  formulated: Formulated;
  request: FeedRequest;
  /** The limits that cannot hold together. */
  limits: Limit[];
}

/** Which products make a limit bite, with what each brings, in words that can be acted on. */
export function becauseOf(limit: Limit, clash: Clash): string[] {
  const row = clash.formulated.program.rows.find((r) => r.id === limit.id)!;
  const told =
    limit.kind === 'min'
      ? floorOfElement(limit.nutrient!, row, clash)
      : limit.kind === 'stock' || limit.kind === 'rate'
        ? ceilingOfProduct(limit, row, clash)
        : row.upper === undefined
          ? floorOfRule(limit, row, clash)
          : capOf(limit, row, clash);
  return [...new Set(told)].slice(0, MOST);
}

/** Products of the shelf with a coefficient of that sign in a row, the strongest first. */
function movers(row: Row, clash: Clash, sign: 1 | -1): { product: ClosedProduct; by: number }[] {
  return [...clash.formulated.products]
    .map(([id, index]) => ({ product: clash.request.shelf[index]!, by: row.terms[id] ?? 0 }))
    .filter(({ by }) => sign * by > 0)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
}

/** `Ca can only come from X, which brings Cl: 1.78 mg of Cl per mg of Ca; Cl <= 20 allows 20 mg/L`. */
function floorOfElement(nutrient: Nutrient, row: Row, clash: Clash): string[] {
  const sources = movers(row, clash, 1);
  if (sources.length === 0) {
    const inWater = clash.request.waters.flatMap((w) => {
      const holds = waterContent(w, nutrient);
      return holds > 0 ? [`${w.name} holds ${formatNumber(holds)} mg/L of it`] : [];
    });
    return [`nothing on the shelf is known to hold ${nutrient}`, ...inWater];
  }
  const only = `${nutrient} can only come from ${names(sources.map((s) => s.product.id))}`;
  const prices = sources.slice(0, 3).flatMap(({ product }) => whatItBrings(product, nutrient, clash));
  if (sources.length === 1 && prices.length > 0) {
    return [`${only}, which ${prices.map((p) => p.replace(`${sources[0]!.product.id} `, '')).join(' and ')}`];
  }
  return [only, ...prices];
}

/** What a source of an element brings towards each cap in the conflict. */
function whatItBrings(product: ClosedProduct, nutrient: Nutrient, clash: Clash): string[] {
  const holds = product.composition.content[nutrient].low;
  return clash.limits.flatMap((limit) => {
    const said = burden(product, limit, clash);
    if (said === null || limit.nutrient === nutrient) return [];
    return [`${product.id} brings ${said.brings} per ${formatNumber(holds)} mg of ${nutrient}; ${said.allows}`];
  });
}

/** What a product counts towards a cap, and what the cap allows; null where it counts nothing or the limit is no cap on it. */
function burden(product: ClosedProduct, limit: Limit, clash: Clash): { brings: string; allows: string } | null {
  const row = clash.formulated.program.rows.find((r) => r.id === limit.id)!;
  const index = clash.request.shelf.indexOf(product);
  const by = row.terms[[...clash.formulated.products].find(([, i]) => i === index)![0]] ?? 0;
  if (row.upper === undefined || by <= 0 || limit.kind === 'stock' || limit.kind === 'rate') return null;
  if (limit.kind === 'ec') return { brings: `${formatNumber(by)} mS/cm`, allows: `${limit.text} is the cap` };
  const ratio = ratioOf(limit, clash.request);
  if (ratio) {
    const over = product.composition.content[ratio.over].high;
    return { brings: `${formatNumber(over)} mg of ${ratio.over}`, allows: `${limit.text} allows ${allowance(ratio)}` };
  }
  const what = limit.nutrient ?? soleNutrient(limit, clash.request);
  return what === null
    ? { brings: `${formatNumber(by)} mg towards ${limit.text}`, allows: `${formatNumber(row.upper)} mg/L are allowed` }
    : { brings: `${formatNumber(by)} mg of ${what}`, allows: `${limit.text} is the cap` };
}

function allowance(ratio: Ratio): string {
  if (ratio.bound === 0) return 'none';
  return ratio.isShare
    ? `${formatNumber(100 * ratio.bound)} % of ${ratio.under}`
    : `${formatNumber(ratio.bound)} times ${ratio.under}`;
}

/** A cap from the other side: which of the products that the floors call for count towards it. */
function capOf(limit: Limit, row: Row, clash: Clash): string[] {
  const wanted = calledFor(clash);
  const pushers = movers(row, clash, 1);
  const water = limit.nutrient ?? soleNutrient(limit, clash.request);
  const fromWater = clash.request.waters.flatMap((w) => {
    const holds = water === null ? 0 : waterContent(w, water);
    return holds > 0 ? [`${w.name} holds ${formatNumber(holds)} mg/L of ${water}`] : [];
  });
  const called = pushers.flatMap(({ product }) => {
    const said = burden(product, limit, clash);
    if (said === null) return [];
    return wanted
      .filter((n) => n !== limit.nutrient && product.composition.content[n].low > 0)
      .map(
        (n) =>
          `${product.id} brings ${said.brings} with every ${formatNumber(product.composition.content[n].low)} mg of ${n}`,
      );
  });
  if (called.length > 0 || fromWater.length > 0) return [...fromWater, ...called];
  return pushers.length === 0 ? [] : [`pushed up by ${names(pushers.map((p) => p.product.id))}`];
}

/** `NO3 >= 0.5 * N`: who pushes against it, and who helps. */
function floorOfRule(limit: Limit, row: Row, clash: Clash): string[] {
  const sole = soleNutrient(limit, clash.request);
  if (sole !== null) return floorOfElement(sole, row, clash);
  const wanted = calledFor(clash);
  const needed = (product: ClosedProduct): boolean => wanted.some((n) => product.composition.content[n].low > 0);
  const all = movers(row, clash, -1);
  const against = all.some(({ product }) => needed(product)) ? all.filter(({ product }) => needed(product)) : all;
  const helpers = movers(row, clash, 1);
  const ratio = ratioOf(limit, clash.request);
  const pushes = against.slice(0, 4).map(({ product, by }) => {
    if (!ratio) return `${product.id} pushes against it by ${formatNumber(-by)} mg per ${product.composition.per}`;
    const { content } = product.composition;
    return `${product.id} pushes against it: ${formatNumber(content[ratio.over].low)} mg of ${ratio.over} to ${formatNumber(content[ratio.under].high)} mg of ${ratio.under}, where it asks for ${formatNumber(ratio.bound * content[ratio.under].high)}`;
  });
  const help =
    helpers.length === 0
      ? 'no product on the shelf helps it'
      : `only ${names(helpers.map((h) => h.product.id))} ${helpers.length === 1 ? 'helps' : 'help'} it`;
  return [...pushes, help];
}

/** What a ceiling leaves of the elements that are called for. */
function ceilingOfProduct(limit: Limit, row: Row, clash: Clash): string[] {
  const product = clash.request.shelf[limit.product!]!;
  const wanted = calledFor(clash);
  return wanted
    .filter((n) => product.composition.content[n].low > 0)
    .map(
      (n) => `that leaves it room for ${formatNumber(row.upper! * product.composition.content[n].low)} mg/L of ${n}`,
    );
}

/** The elements that floors of the conflict ask for, by band or by rule. */
function calledFor({ limits, request, formulated }: Clash): Nutrient[] {
  return limits.flatMap((limit) => {
    if (limit.kind === 'min') return [limit.nutrient!];
    const row = formulated.program.rows.find((r) => r.id === limit.id);
    const sole = row?.lower === undefined || row.upper !== undefined ? null : soleNutrient(limit, request);
    return sole === null ? [] : [sole];
  });
}

function ratioOf(limit: Limit, request: FeedRequest): Ratio | null {
  if (limit.kind !== 'rule') return null;
  const [, index, side] = limit.id.split(':');
  return ratioOfRule(allRules(request)[Number(index)]!, side === 'upper' ? 'cap' : 'floor');
}

/** The nutrient of a rule like `Cl <= 20`. */
function soleNutrient(limit: Limit, request: FeedRequest): Nutrient | null {
  if (limit.kind !== 'rule') return null;
  const terms = Object.entries(allRules(request)[Number(limit.id.split(':')[1])]!.terms) as [Nutrient, number][];
  return terms.length === 1 && terms[0]![1] === 1 ? terms[0]![0] : null;
}

/** `a, b or c`, at most six. */
function names(ids: readonly string[]): string {
  const shown = ids.slice(0, 6);
  const rest = ids.length - shown.length;
  if (rest > 0) return `${shown.join(', ')} and ${rest} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`;
}
