import { readBench } from '../../catalog/bench.js';
import { type Checked, type Problem, problem, type Where } from '../../problem.js';
import { parseAmount } from '../../units/index.js';
import { shippedCatalog } from '../shipped-catalog.js';

/** What a grower measures with, in the words of bench.yaml. */
export interface KitWords {
  spoons?: string[];
  scale?: string;
  syringe?: string;
  dropper?: string;
  cans?: string[];
}

/**
 * `1 tsp, 1/4 tsp, 0.1 g scale, 5 mL syringe, 20 drops/mL, 2 L jug` as the keys of a kit. `measuring spoons` are the usual set of four.
 * @returns every tool that is not understood as a Problem
 */
export function parseKit(text: string, where: Where): Checked<KitWords> {
  const kit: KitWords = {};
  const problems: Problem[] = [];
  for (const part of text.split(/;|,(?!\d)|\band\b|\n|\+(?!\s*\/?\s*-)/i).map((word) => word.trim())) {
    if (part === '' || /^(?:none|nothing|no\s+kit)$/i.test(part)) continue;
    const tool = toolOf(part);
    if (tool === null) problems.push(unknownTool(part, where));
    else if (tool.key === 'spoons' || tool.key === 'cans') kit[tool.key] = [...(kit[tool.key] ?? []), ...tool.words];
    else if (kit[tool.key] !== undefined) problems.push(twice(tool.key, part, where));
    else kit[tool.key] = tool.words[0]!;
  }
  const bench = readBench(JSON.stringify({ water: 'pure', kit }), 'kit', shippedCatalog());
  problems.push(...(bench.ok ? bench.warnings : bench.problems).map((found) => ({ ...found, where })));
  return problems.some(({ severity }) => severity === 'error')
    ? { ok: false, problems }
    : { ok: true, value: kit, warnings: problems };
}

interface Tool {
  key: keyof KitWords;
  words: string[];
}

/** The usual set of a kitchen (common practice, no source). */
export const USUAL_SPOONS = ['1 tsp', '1/2 tsp', '1/4 tsp', '1/8 tsp'];

function toolOf(part: string): Tool | null {
  if (/^(?:(?:a|the|my|usual|set|of|level|kitchen|measuring)\s+)*(?:measuring\s+)?spoons?$/i.test(part))
    return { key: 'spoons', words: USUAL_SPOONS };
  const words = inFigures(part)
    .replace(/^(?:an?|the|my|one)\s+(?=\d|\.)/i, '')
    .replace(
      /\b(?:level|measuring|kitchen|pocket|digital|letter|steps?|readable|to|spoons?|scales?|balance|syringe|pipette|dropper|jug|can|bucket|bottle|pitcher)\b(?!\/)/gi,
      ' ',
    )
    .replace(/[:()]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  if (/\bdrops?\b/i.test(part)) return { key: 'dropper', words: [words] };
  if (/\b(?:syringe|pipette)\b/i.test(part)) return { key: 'syringe', words: [words] };
  if (/\b(?:jug|can|bucket|bottle|pitcher)\b/i.test(part)) return { key: 'cans', words: [words] };
  const [first = ''] = words.split(/\s*(?:±|\+\s*\/?\s*-)\s*/);
  const amount = parseAmount(first);
  if (!amount.ok)
    return /\b(?:tsp|tbsp|teaspoons?|tablespoons?|spoons?)\b/i.test(part) ? { key: 'spoons', words: [words] } : null;
  if (amount.value.kind === 'mass') return { key: 'scale', words: [words] };
  if (amount.value.kind !== 'volume') return null;
  if (/tsp|tbsp|teaspoon|tablespoon/i.test(amount.value.unit) || /spoon/i.test(part))
    return { key: 'spoons', words: [words] };
  return amount.value.millilitres >= 500 ? { key: 'cans', words: [words] } : null;
}

/** `teaspoon`, `half teaspoon`, `a gallon jug` with the figure that is meant. */
function inFigures(part: string): string {
  const size = String.raw`(?=(?:(?:US|imp(?:erial)?|UK|metric)\s+)?(?:tea|table)spoons?\b|(?:(?:US|imp(?:erial)?|UK|metric)\s+)?(?:tsp|tbsp|gal(?:lons?)?|quart|pint|lit(?:re|er))\b)`;
  const fraction = new RegExp(
    `^(?:an?\\s+|the\\s+|my\\s+|one\\s+)?(half|quarter|eighth)[\\s-]+(?:an?\\s+|of\\s+an?\\s+)?${size}`,
    'i',
  );
  const of = { half: '1/2 ', quarter: '1/4 ', eighth: '1/8 ' } as const;
  return part
    .replace(fraction, (_, word: string) => of[word.toLowerCase() as keyof typeof of])
    .replace(new RegExp(`^(?:an?\\s+|the\\s+|my\\s+|one\\s+)?${size}`, 'i'), '1 ');
}

const unknownTool = (part: string, where: Where): Problem =>
  problem(
    'tool',
    where,
    `"${part.slice(0, 60)}"`,
    'a spoon, a scale, a syringe, a dropper or a jug, each with its size',
    'Write for example 1/4 tsp, 0.1 g scale, 5 mL syringe, 5 mL spoon, 20 drops/mL, 2 L jug.',
  );

const twice = (key: string, part: string, where: Where): Problem =>
  problem('tool-twice', where, `"${part}" beside another ${key}`, `one ${key}`, 'Keep the finer one.');
