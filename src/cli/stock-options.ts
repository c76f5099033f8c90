import { type Checked, problem, type Where } from '../problem.js';
import { parseAmount } from '../units/index.js';

const refuse = <T>(code: string, where: Where, found: string, expected: string, fix: string): Checked<T> => ({
  ok: false,
  problems: [problem(code, where, found, expected, fix)],
});

/** `1:100` (or `100`) as the parts of feed that one part of stock makes, 2 to 1000. */
export function parseRatio(text: string, where: Where): Checked<number> {
  const match = /^\s*(?:(\d+(?:\.\d+)?)\s*[:/])?\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
  const [stock, feed] = match ? [Number(match[1] ?? 1), Number(match[2])] : [Number.NaN, Number.NaN];
  const expected = 'a ratio from 1:2 to 1:1000';
  if (!match) return refuse('ratio', where, `"${text}"`, expected, 'Write for example 1:100.');
  if (stock === 0 || feed === 0) return refuse('ratio', where, `"${text}"`, expected, 'Neither side can be nothing.');
  if (stock > feed)
    return refuse(
      'ratio',
      where,
      `"${text}"`,
      expected,
      `The stock comes first: did you mean 1:${tidy(stock / feed)}?`,
    );
  const ratio = feed / stock;
  if (ratio >= 2 && ratio <= 1000) return { ok: true, value: ratio, warnings: [] };
  const fix =
    ratio < 2 ? 'That is no stock but the feed itself.' : 'Less than 1 mL in a litre cannot be measured well.';
  return refuse('ratio', where, `"${text}"`, expected, fix);
}

/** `10 mL/L` as the ratio 100. */
export function parseDose(text: string, where: Where): Checked<number> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  const expected = 'a dose of each stock from 1 to 500 mL per litre';
  if (read.value.kind !== 'volume per volume')
    return refuse('dose', where, `"${text}"`, expected, 'Write for example "10 mL/L" or "2 tsp / US gal".');
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
  return refuse('dose', where, `"${text}"`, expected, fix);
}

/** A jug from 10 mL to 200 L, in mL. */
export function parseJug(text: string, where: Where): Checked<number> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  if (read.value.kind === 'volume' && read.value.millilitres >= 10 && read.value.millilitres <= 200_000)
    return { ok: true, value: read.value.millilitres, warnings: read.warnings };
  return refuse('jug', where, `"${text}"`, 'a volume from 10 mL to 200 L', 'Write for example "500 mL".');
}

/** `10 °C`, `10 C`, `50 °F` or a bare number in °C, from 0 to 40 °C. */
export function parseStorage(text: string, where: Where): Checked<number> {
  const match = /^\s*([-−–]?\d+(?:[.,]\d+)?)\s*(?:°|deg(?:rees)?)?\s*([CF]?)\s*$/i.exec(text);
  const expected = 'a temperature from 0 to 40 °C';
  if (!match) return refuse('coldest', where, `"${text}"`, expected, 'Write for example "10 °C".');
  const number = Number(match[1]!.replace(/[−–]/, '-').replace(',', '.'));
  const celsius = match[2]?.toUpperCase() === 'F' ? ((number - 32) * 5) / 9 : number;
  if (celsius >= 0 && celsius <= 40) return { ok: true, value: celsius, warnings: [] };
  const fix = celsius < 0 ? 'A frozen stock falls apart: keep it free of frost.' : 'Keep stocks cool.';
  return refuse('coldest', where, `"${text}"`, expected, fix);
}

/** `1` or `2`. */
export function parseTanks(text: string, where: Where): Checked<1 | 2> {
  const word = text.trim();
  if (word === '1' || word === '2') return { ok: true, value: word === '1' ? 1 : 2, warnings: [] };
  return refuse('tanks', where, `"${text}"`, '1 or 2', 'Leave it out to use one bottle where one will do.');
}

const tidy = (value: number): string => String(Math.round(value * 100) / 100);
