import type { KitWords } from '../options/kit.js';
import type { Grown } from './grown.js';

/** What a new bench.yaml says; what is absent was not told, and is left out or assumed where it is read. */
export interface BenchWords {
  name: string;
  currency: string | undefined;
  law: 'eu' | undefined;
  waters: readonly (string | Readonly<Record<string, string>>)[];
  kit: KitWords | undefined;
  /** `EC`, or the ppm that the pen shows per mS/cm; absent = no pen. */
  pen: string | undefined;
  feeds: readonly (Grown & { medium: string; name: string })[];
  phase: string | undefined;
  strength: string | undefined;
  batch: string;
  weekly: string | undefined;
  rules: readonly string[];
}

/** Where the schema stands that editors complete the file by. */
export const SCHEMA_FILE = 'bench.schema.json';

/** The text of a new bench.yaml, each part with a word on what it is and how it may be changed. */
export function benchText(words: BenchWords): string {
  const { name, currency, law, kit, pen, feeds, phase, strength, batch, weekly, rules } = words;
  const kitKeys = kit === undefined ? [] : Object.entries(kit);
  return [
    `# yaml-language-server: $schema=${SCHEMA_FILE}`,
    '# The bench: what you water with, measure with and grow. Change any line; `velamen check` reads it and tells what is wrong or doubtful.',
    ...(name === '' ? [] : [`name: ${plain(name)}`]),
    '',
    '# The money of the column price of shelf.csv, such as EUR or USD.',
    ...(currency === undefined ? ['# currency: EUR'] : [`currency: ${plain(currency)}`]),
    ...(law === undefined
      ? []
      : ['', '# Whose law says what a label may be off by: us (where nothing is said) or eu.', `law: ${law}`]),
    '',
    '# The water, by name (rain, reverse-osmosis, soft-tap, median-tap, hard-tap …) or, better, as your supplier states it in mg/L:',
    '# water: { Ca: 40, Mg: 11, Na: 13, Cl: 14, S: 8, alkalinity: 130 }',
    `water: ${waterText(words.waters)}`,
    '',
    '# What you measure with: level spoons, the step of a scale, a syringe, drops in a mL, cans and jugs.',
    ...(kitKeys.length === 0
      ? ['# kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp], scale: 0.1 g, syringe: 5 mL }']
      : ['kit:', ...kitKeys.map(([key, value]) => `  ${key}: ${valueText(value)}`)]),
    '',
    '# What the pen shows: EC (mS/cm), or ppm at so many per mS/cm (500, 640 or 700: see its manual).',
    ...(pen === undefined ? ['# pen: EC'] : [`pen: { scale: ${pen} }`]),
    '',
    '# One feed for each group of plants: how strong, how much is mixed at a time, how much a week.',
    'feeds:',
    ...feeds.flatMap((feed) => [
      `  ${plain(feed.name)}:`,
      `    plants: ${plain(feed.plants)}`,
      `    medium: ${feed.medium}`,
      `    phase: ${plain(phase ?? 'growth')}  # growth, bloom or rest`,
      `    strength: ${plain(strength ?? '100 %')}  # of full strength`,
      `    batch: ${plain(batch)}`,
      ...(weekly === undefined ? ['    # weekly: 10 L  # what you use in a week'] : [`    weekly: ${plain(weekly)}`]),
      ...(rules.length === 0 ? [] : [`    rules: ${valueText([...rules])}`]),
    ]),
    '',
  ].join('\n');
}

function waterText(waters: BenchWords['waters']): string {
  const said = waters.map((water) =>
    typeof water === 'string'
      ? `{ use: ${plain(water)} }`
      : `{ ${Object.entries(water)
          .map(([key, value]) => `${plain(key)}: ${plain(value)}`)
          .join(', ')} }`,
  );
  return said.length === 1 ? said[0]! : `[${said.join(', ')}]`;
}

const valueText = (value: string | readonly string[]): string =>
  typeof value === 'string' ? plain(value) : `[${value.map(plain).join(', ')}]`;

/** A word of YAML: in quotes where it could be taken for anything else. */
const plain = (text: string): string =>
  /^(?:[A-Za-z][\w -]*|\d[\d./]*(?: ?[A-Za-z%][\w %/]*)?)$/.test(text) &&
  !/^(?:y|n|yes|no|on|off|true|false|null)$/i.test(text) &&
  text.trim() === text
    ? text
    : JSON.stringify(text);
