import type { Checked, Where } from '../../problem.js';
import { commaNotes, formatUpTo, parseAmount, readPlainNumber } from '../../units/index.js';
import { refused } from './refused.js';

/** `1:100` (or `100`) as the parts of feed that one part of stock makes, 2 to 1000. */
export function parseRatio(text: string, where: Where): Checked<number> {
  const sides = text.split(/[:/]/).map((side) => readPlainNumber(side));
  const [first, second = first] = sides;
  const expected = 'a ratio from 1:2 to 1:1000';
  if (!first?.ok || !second?.ok || sides.length > 2)
    return refused('ratio', where, `"${text}"`, expected, 'Write for example 1:100.');
  const [stock, feed] = sides.length === 1 ? [1, first.value] : [first.value, second.value];
  if (stock === 0 || feed === 0) return refused('ratio', where, `"${text}"`, expected, 'Neither side can be nothing.');
  if (stock > feed)
    return refused(
      'ratio',
      where,
      `"${text}"`,
      expected,
      `The stock comes first: did you mean 1:${tidy(stock / feed)}?`,
    );
  const ratio = feed / stock;
  const warnings = sides.flatMap((side) => (side.ok ? commaNotes(side.comma, where) : []));
  if (ratio >= 2 && ratio <= 1000) return { ok: true, value: ratio, warnings };
  const fix =
    ratio < 2 ? 'That is no stock but the feed itself.' : 'Less than 1 mL in a litre cannot be measured well.';
  return refused('ratio', where, `"${text}"`, expected, fix);
}

/** `10 mL/L` as the ratio 100. */
export function parseDose(text: string, where: Where): Checked<number> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  const expected = 'a dose of each stock from 1 to 500 mL per litre';
  if (read.value.kind !== 'volume per volume')
    return refused('dose', where, `"${text}"`, expected, 'Write for example "10 mL/L" or "2 tsp / US gal".');
  const dose = read.value.millilitresPerLitre;
  if (dose >= 1 && dose <= 500) return { ok: true, value: 1000 / dose, warnings: read.warnings };
  const fix =
    dose > 1000
      ? 'That is more than the litre itself.'
      : dose > 500
        ? 'That is no stock but the feed itself.'
        : dose === 0
          ? 'Nothing is no dose.'
          : 'Less than 1 mL in a litre cannot be measured well.';
  return refused('dose', where, `"${text}"`, expected, fix);
}

/** `1` or `2`. */
export function parseTanks(text: string, where: Where): Checked<1 | 2> {
  const word = text.trim();
  if (word === '1' || word === '2') return { ok: true, value: word === '1' ? 1 : 2, warnings: [] };
  return refused('tanks', where, `"${text}"`, '1 or 2', 'Leave it out to use one bottle where one will do.');
}

const tidy = (value: number): string => formatUpTo(value, 2);
