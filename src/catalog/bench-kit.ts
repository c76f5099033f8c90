import { type Checked, type Problem, problem, type Where } from '../problem.js';
import {
  type Bounded,
  type Grams,
  isWithin,
  type Millilitres,
  PEN_SCALE,
  commaNotes,
  rangeText,
  readPenScale,
} from '../units/index.js';
import { readAmount } from './amounts.js';
import type { Kit, Pen } from './bench-types.js';
import { describe, oneOrMore, optional, readSection, required, sectionOf, words, wordsOf } from './section.js';
import { childOf, contentOf, isMapSpot, itemsOf, type Spot, whereIs } from './yaml.js';

/**
 * Reads what the grower measures with: `{ spoons: [1/4 tsp], scale: 0.01 g, syringe: 1 mL, dropper: 20 drops/mL, cans: [1 US gal] }`. A scale
 * may say how far it is off (`0.01 g ± 0.02 g`), a syringe its smallest mark (`5 mL by 0.2 mL`).
 */
export function readKit(spot: Spot, problems: Problem[]): Kit {
  const kit: Kit = { spoons: [] };
  const given = readSection(spot, KIT, problems);
  if (!given) return kit;
  if (given.spoons !== undefined) {
    for (const item of itemsOf(childOf(spot, 'spoons'))) {
      const label = wordsOf(contentOf(item));
      const millilitres = volumeOf(item, 'spoon', `a spoon ${rangeText('spoon')}, such as 1/4 tsp`, problems);
      if (millilitres === undefined) continue;
      if (kit.spoons.some((s) => s.millilitres === millilitres)) {
        problems.push(
          problem('spoon-twice', whereIs(item), describe(label), 'each spoon once', 'Take one of them out.'),
        );
      } else kit.spoons.push({ label, millilitres });
    }
  }
  if (given.scale !== undefined) Object.assign(kit, scaleOf(childOf(spot, 'scale'), problems));
  if (given.syringe !== undefined) Object.assign(kit, syringeOf(childOf(spot, 'syringe'), problems));
  if (given.dropper !== undefined) {
    const at = childOf(spot, 'dropper');
    const bare = /^\s*[\d.,]+\s*$/.test(String(given.dropper));
    const expected = `${rangeText('dropper')}, such as 20 drops/mL`;
    if (bare) problems.push(wrong(at, expected));
    const amount = bare ? undefined : readAmount(String(given.dropper), whereIs(at), false, problems);
    if (amount?.kind === 'dropper' && isWithin('dropper', amount.dropsPerMillilitre)) {
      kit.dropsPerMillilitre = amount.dropsPerMillilitre;
    } else if (amount) problems.push(wrong(at, expected));
  }
  if (given.cans !== undefined) {
    kit.cans = itemsOf(childOf(spot, 'cans')).flatMap((item) => {
      const millilitres = volumeOf(item, 'can', `a can or jug ${rangeText('can')}, such as 1 US gal`, problems);
      return millilitres === undefined ? [] : [{ label: wordsOf(contentOf(item)), millilitres }];
    });
  }
  return kit;
}

/** `0.01 g`, or with how far it is off: `0.01 g ± 0.02 g`. */
function scaleOf(spot: Spot, problems: Problem[]): Pick<Kit, 'scaleStepGrams' | 'scaleErrorGrams'> {
  const [step = '', off] = wordsOf(contentOf(spot)).split(/\s*(?:±|\+\s*\/?\s*-)\s*/);
  const grams = (text: string, expected: string): Grams | undefined => {
    const amount = readAmount(text, whereIs(spot), false, problems);
    if (amount?.kind === 'mass' && isWithin('scaleStep', amount.grams)) return amount.grams;
    if (amount) problems.push(wrong(spot, expected));
    return undefined;
  };
  const scaleStepGrams = grams(step, `the step of a scale ${rangeText('scaleStep')}, such as 0.01 g`);
  const scaleErrorGrams =
    off === undefined
      ? undefined
      : grams(off, `how far the scale is off ${rangeText('scaleStep')}, such as 0.01 g ± 0.02 g`);
  return { ...(scaleStepGrams ? { scaleStepGrams } : {}), ...(scaleErrorGrams ? { scaleErrorGrams } : {}) };
}

/** `1 mL`, or with its smallest mark: `5 mL by 0.2 mL`. */
function syringeOf(spot: Spot, problems: Problem[]): Pick<Kit, 'syringeMillilitres' | 'syringeStepMillilitres'> {
  const [full = '', mark] = wordsOf(contentOf(spot)).split(/\s+(?:by|in steps of)\s+/i);
  const volume = (text: string, name: Bounded, most: number, expected: string): Millilitres | undefined => {
    const amount = readAmount(text, whereIs(spot), false, problems);
    if (amount?.kind === 'volume' && isWithin(name, amount.millilitres) && amount.millilitres <= most)
      return amount.millilitres;
    if (amount) problems.push(wrong(spot, expected));
    return undefined;
  };
  const syringeMillilitres = volume(full, 'syringe', Infinity, `a syringe ${rangeText('syringe')}, such as 1 mL`);
  if (syringeMillilitres === undefined) return {};
  if (mark === undefined) return { syringeMillilitres };
  const syringeStepMillilitres = volume(
    mark,
    'syringeMark',
    syringeMillilitres,
    'a smallest mark of 0.001 mL or more, no larger than the syringe, such as 5 mL by 0.2 mL',
  );
  return { syringeMillilitres, ...(syringeStepMillilitres ? { syringeStepMillilitres } : {}) };
}

/** Reads what the pen shows: `EC`, `{ scale: EC }`, or `{ scale: 500 }` for ppm per mS/cm. */
export function readPen(spot: Spot, problems: Problem[]): Pen {
  const given = isMapSpot(spot) ? readSection(spot, PEN, problems) : { scale: contentOf(spot) };
  const scale = given?.scale;
  if (scale === undefined) return { reads: 'EC' };
  const read = readPenWords(wordsOf(scale), whereIs(isMapSpot(spot) ? childOf(spot, 'scale') : spot));
  problems.push(...(read.ok ? read.warnings : read.problems));
  return read.ok ? read.value : { reads: 'EC' };
}

/** `EC`, or ppm per mS/cm: `500`, `0.5`. */
export function readPenWords(text: string, where: Where): Checked<Pen> {
  const read = readPenScale(text);
  if (!read.ok)
    return { ok: false, problems: [problem('pen-scale', where, describe(text), PEN_SCALE.expected, PEN_SCALE.fix)] };
  const pen: Pen = read.value === null ? { reads: 'EC' } : { reads: 'ppm', scale: read.value };
  return { ok: true, value: pen, warnings: commaNotes(read.comma, where) };
}

function volumeOf(spot: Spot, name: 'spoon' | 'can', expected: string, problems: Problem[]): Millilitres | undefined {
  const amount = readAmount(wordsOf(contentOf(spot)), whereIs(spot), false, problems);
  if (!amount) return undefined;
  if (amount.kind === 'volume' && isWithin(name, amount.millilitres / (name === 'can' ? 1000 : 1)))
    return amount.millilitres;
  problems.push(wrong(spot, expected));
  return undefined;
}

const wrong = (spot: Spot, expected: string): Problem =>
  problem(
    'kit',
    whereIs(spot),
    describe(contentOf(spot)),
    expected,
    `Write ${expected.split('such as ').at(-1)}, or what you have.`,
  );

/** The keys of the kit. */
export const KIT = sectionOf({
  spoons: optional(oneOrMore, 'a list of level spoons, such as [1 tsp, 1/4 tsp]'),
  scale: optional(words, 'the step of the scale, such as 0.01 g'),
  syringe: optional(words, 'the size of the syringe, such as 1 mL'),
  dropper: optional(words, 'drops in a millilitre, such as 20 drops/mL'),
  cans: optional(oneOrMore, 'a list of cans and jugs, such as [1 US gal, 10 L]'),
});

/** The keys of the pen. */
export const PEN = sectionOf({ scale: required(words, 'EC, or the ppm scale, such as 500') });
