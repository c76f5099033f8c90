import { type Checked, problem, type Where } from '../problem.js';

/** `0`, `0.1` or `10 %` as a share from 0 to 1. A bare number above 1 is refused: it may have been meant as percent. */
export function parseShare(text: string, where: Where): Checked<number> {
  const match = /^\s*(\d+(?:\.\d+)?|\.\d+)\s*(%?)\s*$/.exec(text);
  const share = match ? Number(match[1]) / (match[2] === '%' ? 100 : 1) : Number.NaN;
  if (share >= 0 && share <= 1) return { ok: true, value: share, warnings: [] };
  const fix =
    match && match[2] === '' ? `Write "${match[1]} %" if you mean percent.` : 'Write for example 0, "10 %" or 0.1.';
  return { ok: false, problems: [problem('share', where, `"${text}"`, 'a share from 0 to 1, or 0 to 100 %', fix)] };
}

/** A whole number from 1 to 9999. */
export function parseCount(text: string, where: Where): Checked<number> {
  if (/^\s*[1-9]\d{0,3}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  return {
    ok: false,
    problems: [problem('count', where, `"${text}"`, 'a whole number, 1 or more', 'Write for example 3.')],
  };
}

/** `18 °C`, `18 C`, `64 °F` or a bare number in °C, from 0 to 40 °C. */
export function parseTemperature(text: string, where: Where): Checked<number> {
  const match = /^\s*(\d+(?:\.\d+)?)\s*°?\s*([CF]?)\s*$/i.exec(text);
  const number = Number(match?.[1] ?? Number.NaN);
  const celsius = match?.[2]?.toUpperCase() === 'F' ? ((number - 32) * 5) / 9 : number;
  if (celsius >= 0 && celsius <= 40) return { ok: true, value: celsius, warnings: [] };
  return {
    ok: false,
    problems: [
      problem(
        'temperature',
        where,
        `"${text}"`,
        'a temperature from 0 to 40 °C',
        'Write for example "18 °C" or "64 °F".',
      ),
    ],
  };
}

/** `Ca=40, Mg=11` as keys and values, the way bench.yaml would say it; a name without `=` stays a name. */
export function parseWaterWords(text: string, where: Where): Checked<string | Record<string, string>> {
  if (!/[=:]/.test(text)) return { ok: true, value: text.trim(), warnings: [] };
  const analysis: Record<string, string> = Object.create(null);
  for (const part of text.split(/[,;]/).filter((p) => p.trim() !== '')) {
    const pair = /^\s*([^=:]+?)\s*[=:]\s*(.+?)\s*$/.exec(part);
    const key = pair?.[1] ?? '';
    if (!pair || Object.hasOwn(analysis, key)) {
      const found = pair ? `${key} twice` : `"${part.trim()}"`;
      return {
        ok: false,
        problems: [
          problem(
            'water',
            where,
            found,
            'NAME=NUMBER pairs, each name once',
            'Write for example "Ca=40, Mg=11, alkalinity=130".',
          ),
        ],
      };
    }
    analysis[key] = pair[2]!;
  }
  return { ok: true, value: { ...analysis }, warnings: [] };
}
