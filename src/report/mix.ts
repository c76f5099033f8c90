import type { ElementLine, FeedHeader, Item, Miss, Mix, RuleLine, WaterShare } from '../feed/results.js';
import { amount, figure, money, percent } from './figures.js';
import { solutionBlocks } from './solution.js';
import { type Bar, type Block, heading, paragraph, table } from './sheet.js';
import { originSays, violatedName } from './says/limits.js';

/** What a grower's pen prints: mS/cm itself, or a dissolved-solids scale (500, 640, 700, …). */
export type PenScale = 'EC' | number;

/** Everything a mix says about itself, in the order a grower asks: what to weigh, what it gives, what a pen will show. */
export function mixBlocks(
  mix: Mix,
  header: Pick<FeedHeader, 'batchLitres' | 'currency'>,
  pen: PenScale | null,
): Block[] {
  return [
    ...itemBlocks(mix, header),
    ...elementBlocks(mix.elements),
    ...nitrogenBlocks(mix),
    ...ruleBlocks(mix.rules),
    ...ecBlocks(mix, pen),
    ...solutionBlocks(mix),
  ];
}

/** The products with their amounts and cost. */
function itemBlocks(mix: Mix, header: Pick<FeedHeader, 'batchLitres' | 'currency'>): Block[] {
  if (mix.items.length === 0)
    return [heading('What goes in'), paragraph('Nothing but the water: no product is needed.')];
  const batch = mix.items.some((item) => item.perBatch !== null) && header.batchLitres !== null;
  const priced = mix.items.some((item) => item.costPerLitre !== null);
  const litres = header.batchLitres ?? 0;
  const heads = [
    '',
    '>per litre',
    ...(batch ? [`>for ${figure(litres)} L`] : []),
    ...(priced ? ['>cost per litre'] : []),
  ];
  const rows = mix.items.map((item) => [
    named(item, mix.items),
    amount(perLitre(item), unitOf(item)),
    ...(batch ? [item.perBatch === null ? '' : amount(item.perBatch, unitOf(item))] : []),
    ...(priced ? [item.costPerLitre === null ? 'price unknown' : money(item.costPerLitre, header.currency)] : []),
  ]);
  // bought water belongs in the sum, so it is seen there
  for (const water of priced ? mix.waters.filter((w) => w.costPerLitre > 0) : []) {
    const litres = batch ? [`${figure(water.share * (header.batchLitres ?? 0))} L`] : [];
    rows.push([water.name, `${figure(water.share)} L`, ...litres, money(water.costPerLitre, header.currency)]);
  }
  const total = [
    mix.items.every((item) => item.costPerLitre !== null) ? 'together' : 'together, as far as prices are known',
    '',
    ...(batch ? [''] : []),
    money(mix.costPerLitre, header.currency),
  ];
  const blocks: Block[] = [heading('What goes in'), table(heads, rows, priced ? total : undefined)];
  if (priced && mix.costPerBatch !== null && batch) {
    blocks.push(paragraph(`The batch of ${figure(litres)} L costs ${money(mix.costPerBatch, header.currency)}.`));
  }
  return blocks;
}

/** The elements as bars against their bands; elements that are neither wanted nor present are left out. */
export function elementBlocks(elements: readonly ElementLine[], title = 'What the can holds'): Block[] {
  const bars = elements.filter((e) => e.min !== null || e.aim !== null || e.max !== null || e.high > 0).map(elementBar);
  if (bars.length === 0) return [];
  const judged = bars.some((bar) => bar.min !== null || bar.aim !== null || bar.max !== null);
  return [heading(judged ? `${title}, against what the plants want` : title), { kind: 'bars', unit: 'mg/L', bars }];
}

/** The forms of nitrogen in one line. */
export function nitrogenBlocks(mix: Pick<Mix, 'nitrogenShares'>): Block[] {
  const shares = mix.nitrogenShares;
  if (shares === null) return [];
  return [paragraph(`Nitrogen by form: ${nitrogenText(shares)}.`)];
}

/** `nitrate 75 %, ammonium 25 %`; the two main forms are always named. */
export function nitrogenText(shares: NonNullable<Mix['nitrogenShares']>): string {
  return nitrogenForms(shares)
    .map(({ name, words }) => `${name} ${words}`)
    .join(', ');
}

/** The forms that are there, and the two main ones always: name, share from 0 to 1, and the share in words. */
export const nitrogenForms = (
  shares: NonNullable<Mix['nitrogenShares']>,
): { name: string; share: number; words: string }[] =>
  (['nitrate', 'ammonium', 'urea', 'other', 'undeclared'] as const)
    .filter((form) => shares[form] > 0 || form === 'nitrate' || form === 'ammonium')
    .map((form) => ({ name: FORM_NAMES[form], share: shares[form], words: percent(shares[form]) }));

const FORM_NAMES = {
  nitrate: 'nitrate',
  ammonium: 'ammonium',
  urea: 'urea',
  other: 'other',
  undeclared: 'form not declared',
} as const;

/** Shares, ratios and caps with the value reached. */
export function ruleBlocks(rules: readonly RuleLine[]): Block[] {
  if (rules.length === 0) return [];
  const rows = rules.map((rule) => [
    rule.rule.text,
    rule.value === null ? '' : figure(rule.value),
    rule.holds ? 'holds' : rule.mayHold ? 'MAY BREAK' : 'BROKEN',
    originSays(rule.rule.from),
  ]);
  return [heading('Rules'), table(['', '>in this mix', '', 'from'], rows)];
}

/** What a meter will show, with the room it has. */
export function ecBlocks(mix: Pick<Mix, 'ec' | 'ecAtTemperature'>, pen: PenScale | null): Block[] {
  const { mSPerCm, low, high, cap } = mix.ec;
  const max = cap?.bound ?? null;
  const limit =
    max === null
      ? ''
      : mSPerCm <= max * (1 + 1e-6)
        ? `; the limit is ${figure(max)}`
        : `; OVER the limit of ${figure(max)}`;
  const range = (of: (ec: number) => string): string => (of(low) === of(high) ? '' : ` (${of(low)} to ${of(high)})`);
  const lines = [`EC at 25 °C: ${figure(mSPerCm)} mS/cm${range(figure)}${limit}.`];
  if (mix.ecAtTemperature) {
    const at = mix.ecAtTemperature;
    lines.push(
      `At ${figure(at.celsius)} °C: ${figure(at.mSPerCm)} mS/cm (${figure(at.low)} to ${figure(at.high)}) on a meter that does not correct for temperature.`,
    );
  }
  if (pen !== null && pen !== 'EC') {
    const reading = (ec: number): string => figure(ec * pen);
    lines.push(`A pen on the ${pen} scale shows about ${reading(mSPerCm)} ppm of that scale${range(reading)}.`);
  }
  return [paragraph(lines.join(' '), max !== null && mSPerCm > max * (1 + 1e-6) ? 'bad' : 'plain')];
}

/** `rain`, or `rain 60 %, tap 40 %`. */
export function waterText(waters: readonly WaterShare[]): string {
  const used = waters.filter((water) => water.share > 0);
  if (used.length === 1) return used[0]!.name;
  return used.map((water) => `${water.name} ${percent(water.share)}`).join(', ');
}

/** `K min 90: this mix gives 71, 19 too little`, one line per missed limit. */
export function missLines(misses: readonly Miss[]): string[] {
  return misses.map(({ limit, value, bound }) => {
    const by = Math.abs(value - bound);
    return `${boundedName(limit, bound)}: this mix gives ${figure(value)}, ${figure(by)} too ${value < bound ? 'little' : 'much'}`;
  });
}

/** `K least 90`; a rule has its number in its text. */
export const boundedName = (limit: Miss['limit'], bound: number): string => violatedName(limit, figure(bound));

export function elementBar(line: ElementLine): Bar {
  const { element, mgPerLitre, low, high, min, aim, max } = line;
  return { name: element, value: mgPerLitre, low, high, min, aim, max };
}

/** What the jar says; the id where two jars say the same. */
function named(item: Item, items: readonly Item[]): string {
  const alone = items.every((other) => other === item || other.name !== item.name);
  return item.name !== '' && alone ? item.name : item.id;
}

const unitOf = (item: Item): 'g' | 'mL' => (item.gramsPerLitre === undefined ? 'mL' : 'g');
const perLitre = (item: Item): number => item.gramsPerLitre ?? item.millilitresPerLitre ?? 0;
