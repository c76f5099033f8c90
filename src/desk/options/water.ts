import { readBench } from '../../catalog/bench.js';
import type { Catalog } from '../../catalog/catalog.js';
import type { Water } from '../../label/product.js';
import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';

/** `Ca=40, Mg=11` as keys and values, the way bench.yaml would say it; a name without `=` stays a name. */
export function parseWaterWords(text: string, where: Where): Checked<string | Record<string, string>> {
  if (!/[=:]/.test(text)) return { ok: true, value: text.trim(), warnings: [] };
  const analysis: Record<string, string> = Object.create(null);
  for (const part of text.split(PARTS).filter((p) => p.trim() !== '')) {
    const pair = /^\s*([^=:]+?)\s*[=:]\s*(.+?)\s*$/.exec(part);
    const key = pair?.[1] ?? '';
    if (!pair || Object.hasOwn(analysis, key)) {
      const found = pair ? `${key} twice` : `"${part.trim()}"`;
      return refused(
        'water',
        where,
        found,
        'NAME=NUMBER pairs, each name once',
        'Write for example "Ca=40, Mg=11, alkalinity=130".',
      );
    }
    analysis[key] = pair[2]!;
  }
  return { ok: true, value: { ...analysis }, warnings: [] };
}

/** `Ca=40,5, Mg=11`: a comma right before a digit is a decimal comma. */
const PARTS = /;|,(?!\d)/;

/** Waters as options name them, each by the reader of bench.yaml; problems point at the option. */
export function readWaters(texts: readonly string[], where: Where, catalog: Catalog): Checked<Water[]> {
  const words = texts.map((text) => parseWaterWords(text, where));
  const problems = words.flatMap((read) => (read.ok ? read.warnings : read.problems));
  const said = words.flatMap((read) => (read.ok ? [read.value] : []));
  if (said.length === 0) return { ok: false, problems };
  const bench = readBench(JSON.stringify({ water: said.length === 1 ? said[0] : said }), 'options', catalog);
  const found = (bench.ok ? bench.warnings : bench.problems).map((p) => ({ ...p, where }));
  return bench.ok && problems.length === 0
    ? { ok: true, value: bench.value.waters, warnings: found }
    : { ok: false, problems: [...problems, ...found] };
}
