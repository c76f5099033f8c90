import { type Checked, nearest, type Problem, problem, type Where } from '../problem.js';
import { readNumber, spelledOut, type Writing } from './readers/number.js';
import { commaNotes } from './readers/read.js';
import {
  type DropsPerMillilitre,
  dropsPerMillilitre,
  type Grams,
  type GramsPerLitre,
  grams,
  gramsPerLitre,
  type MgPerLitre,
  mgPerLitre,
  type MilliSiemensPerCm,
  type Millilitres,
  type MillilitresPerLitre,
  milliSiemensPerCm,
  millilitres,
  millilitresPerLitre,
  type Percent,
  percent,
} from './quantity.js';
import { refusedUnit, type Unit, unitNamed, unitNames } from './table.js';

/** A measured amount in the base unit of its kind. `unit` is the full name of the unit as read (`US tsp`, `g/L`). */
export type Amount = { unit: string } & (
  | { kind: 'mass'; grams: Grams }
  | { kind: 'volume'; millilitres: Millilitres }
  | { kind: 'mass per volume'; gramsPerLitre: GramsPerLitre; mgPerLitre: MgPerLitre }
  | { kind: 'volume per volume'; millilitresPerLitre: MillilitresPerLitre }
  | { kind: 'share'; percent: Percent }
  | { kind: 'conductivity'; mSPerCm: MilliSiemensPerCm }
  | { kind: 'dropper'; dropsPerMillilitre: DropsPerMillilitre }
);

export interface AmountOptions extends Writing {
  where?: Where;
  /** Drops in one mL of the dropper at hand; without it drops are refused. */
  dropsPerMillilitre?: number;
}

/**
 * Reads an amount with its unit: `450 g`, `1/4 tsp`, `1 1/2 US cup`, `1,5 kg` (with a warning), `2 g/L`, `90 mg/L`,
 * `13.5 oz / 100 US gal`, `1.5 mL/L`, `80 %`, `0.8 mS/cm`, `20 drops/mL`. A bare gal, cup, fl oz or ppm is refused.
 * A spoonful is a volume; `level` may be said, `heaped` is refused.
 */
export function parseAmount(text: string, options: AmountOptions = {}): Checked<Amount> {
  const where = options.where ?? {};
  const warnings: Problem[] = [];
  const fail = (found: string, expected: string, fix: string): Checked<Amount> => ({
    ok: false,
    problems: [problem('amount', where, found, expected, fix)],
  });
  const plain = spelledOut(text).replace(/^level\s+/i, '');
  if (plain === '') return fail('nothing', 'an amount with its unit', 'Write for example 450 g, 500 mL or 1/4 tsp.');
  if (plain.length > 80)
    return fail(`${plain.length} characters`, 'an amount with its unit', 'Write for example 450 g.');

  const number = readNumber(plain, options);
  if (!number.ok) return fail(number.found, number.expected, number.fix);
  warnings.push(...commaNotes(number.comma, where));
  const words = plain.slice(number.length).trim();
  if (words === '')
    return fail(
      `"${text.trim()}" without a unit`,
      'a number and a unit',
      `Add the unit, for example ${plain} g or ${plain} mL.`,
    );

  const whole = readUnit(words);
  if (!whole.reason) return settle(number.value, whole, undefined, 1);
  const [, left, right] = /^(.+?)\s*(?:\/|\bper\b)\s*(.+)$/i.exec(words) ?? [];
  if (left === undefined || right === undefined) return fail(...whole.reason());
  const top = readUnit(left);
  if (top.reason) return fail(...top.reason());
  const counted = /^[\d.,]/.test(right) ? readNumber(right, options) : undefined;
  if (counted && !counted.ok) return fail(counted.found, counted.expected, counted.fix);
  warnings.push(...commaNotes(counted?.comma ?? null, where));
  const under = readUnit(counted ? right.slice(counted.length).trim() : right);
  if (under.reason) return fail(...under.reason());
  if (counted?.value === 0)
    return fail(`"${words}"`, 'a rate per more than nothing', 'Write a volume above zero after the slash.');
  return settle(number.value, top, under, counted?.value ?? 1);

  function settle(value: number, over: Read, per: Read | undefined, count: number): Checked<Amount> {
    const amount = toAmount(value, over.unit!, per?.unit, count, options.dropsPerMillilitre);
    if (!amount)
      return fail(
        `"${text.trim()}"`,
        'a mass, volume, percentage, conductivity, or a rate per volume',
        'Write for example 2 g/L or 1.5 mL/L.',
      );
    if (amount === 'dropper') {
      return fail(
        `"${text.trim()}"`,
        'a dropper whose drops are counted',
        'Count the drops in 1 mL and name it in the kit (dropper: 20 drops/mL), or write mL.',
      );
    }
    const { unit: _unit, kind: _kind, ...numbers } = amount;
    if (Object.values(numbers).some((x) => !Number.isFinite(x)))
      return fail(`"${text.trim()}"`, 'a finite amount', 'Write a smaller number.');
    return { ok: true, value: amount, warnings };
  }
}

interface Read {
  unit?: Unit;
  /** A function, for the search for the nearest unit is slow, and a refusal is not always shown. */
  reason?: () => [found: string, expected: string, fix: string];
}

function readUnit(written: string): Read {
  const words = written.replace(/^level\s+|\s+level$|^\(?level\)?\s+/i, '').trim();
  if (/^(heaped|heaping|rounded|scant|generous)\b/i.test(words)) {
    return {
      reason: () => [
        `"${words}"`,
        'a level spoon',
        'Level the spoon with a straight edge and write it without that word.',
      ],
    };
  }
  const unit = unitNamed(words);
  if (unit) return { unit };
  const refused = refusedUnit(words);
  if (refused) return { reason: () => [`"${words}"`, refused.expected, refused.fix] };
  if (/^[-–—]\s*\d|^to\s+\d/.test(words))
    return { reason: () => [`"${words}"`, 'one amount, not a range', 'Write a single amount.'] };
  return {
    reason: () => {
      const guesses = nearest(words, unitNames());
      const known = 'g, kg, oz, lb, mL, L, tsp, US gal, g/L, mL/L, mg/L or %';
      return [
        `unit "${words}"`,
        'a unit that is known',
        guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Write ${known}.`,
      ];
    },
  };
}

function toAmount(
  value: number,
  top: Unit,
  under: Unit | undefined,
  count: number,
  drops?: number,
): Amount | 'dropper' | undefined {
  const base = (value * top.times) / top.over;
  if (!under) {
    const unit = top.name;
    if (top.dimension === 'mass') return { kind: 'mass', unit, grams: grams(base) };
    if (top.dimension === 'volume') return { kind: 'volume', unit, millilitres: millilitres(base) };
    if (top.dimension === 'share') return { kind: 'share', unit, percent: percent(base) };
    if (top.dimension === 'conductivity') return { kind: 'conductivity', unit, mSPerCm: milliSiemensPerCm(base) };
    return drops && drops > 0 ? { kind: 'volume', unit, millilitres: millilitres(base / drops) } : 'dropper';
  }
  if (under.dimension !== 'volume') return undefined;
  const unit = `${top.name}/${count === 1 ? '' : `${count} `}${under.name}`;
  const litresUnder = (count * under.times) / under.over / 1000;
  if (top.dimension === 'mass') {
    const mg = (value * top.times * 1000) / top.over / litresUnder;
    return {
      kind: 'mass per volume',
      unit,
      gramsPerLitre: gramsPerLitre(base / litresUnder),
      mgPerLitre: mgPerLitre(mg),
    };
  }
  if (top.dimension === 'volume')
    return { kind: 'volume per volume', unit, millilitresPerLitre: millilitresPerLitre(base / litresUnder) };
  if (top.dimension !== 'drops') return undefined;
  if (litresUnder === 0.001) return { kind: 'dropper', unit, dropsPerMillilitre: dropsPerMillilitre(value) };
  return drops && drops > 0
    ? { kind: 'volume per volume', unit, millilitresPerLitre: millilitresPerLitre(base / drops / litresUnder) }
    : 'dropper';
}
