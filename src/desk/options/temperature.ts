import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';

/** `18 °C`, `18 C`, `64 °F` or a bare number in °C, from 0 to 40 °C. */
export function parseTemperature(text: string, where: Where): Checked<number> {
  const match = /^\s*(\d+(?:\.\d+)?)\s*°?\s*([CF]?)\s*$/i.exec(text);
  const number = Number(match?.[1] ?? Number.NaN);
  const celsius = match?.[2]?.toUpperCase() === 'F' ? ((number - 32) * 5) / 9 : number;
  if (celsius >= 0 && celsius <= 40) return { ok: true, value: celsius, warnings: [] };
  return refused(
    'temperature',
    where,
    `"${text}"`,
    'a temperature from 0 to 40 °C',
    'Write for example "18 °C" or "64 °F".',
  );
}

/** The coldest it gets where a stock stands: `10 °C`, `10 C`, `50 °F` or a bare number in °C, from 0 to 40 °C. */
export function parseStorage(text: string, where: Where): Checked<number> {
  const match = /^\s*([-−–]?\d+(?:[.,]\d+)?)\s*(?:°|deg(?:rees)?)?\s*([CF]?)\s*$/i.exec(text);
  const expected = 'a temperature from 0 to 40 °C';
  if (!match) return refused('coldest', where, `"${text}"`, expected, 'Write for example "10 °C".');
  const number = Number(match[1]!.replace(/[−–]/, '-').replace(',', '.'));
  const celsius = match[2]?.toUpperCase() === 'F' ? ((number - 32) * 5) / 9 : number;
  if (celsius >= 0 && celsius <= 40) return { ok: true, value: celsius, warnings: [] };
  const fix = celsius < 0 ? 'A frozen stock falls apart: keep it free of frost.' : 'Keep stocks cool.';
  return refused('coldest', where, `"${text}"`, expected, fix);
}
