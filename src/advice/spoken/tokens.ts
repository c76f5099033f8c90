import { MEASURE, QUALITY, WATER, WATER_NAME } from './spelled.js';

/** One piece of a sentence about feed. */
export type Token =
  /** An amount of a product as written, `1 level tsp`. */
  | { kind: 'amount'; text: string }
  /** So much water: the words for it, whether it stands with the amount before it (`g/L`), and which water. */
  | { kind: 'basis'; text: string; volume: string; isSlash: boolean; water: string | null }
  | { kind: 'joint'; text: string; isStrong: boolean }
  | { kind: 'word'; text: string };

const N = String.raw`(?:\d+\s+\d+\s*\/\s*\d+|\d+\s*\/\s*\d+|\d+(?:[.,]\d+)*|[.,]\d+)`;
const COUNTED = String.raw`(?<count>${N})?\s*(?<unit>${WATER}|(?<=\d\s*)(?:m3|mls?|millilit(?:re|er)s?))(?![\p{L}\d])\.?`;
const OF_WATER = String.raw`(?:\s*(?:of\s+)?(?<water>${WATER_NAME}))?`;
const ARTICLE = String.raw`(?:each\s+|every\s+|an?\s+|the\s+|one\s+)?`;
const LINK = String.raw`(?:per|for|to|in|into|makes?|up\s+to)`;

const PATTERNS: readonly (readonly [Token['kind'], RegExp])[] = [
  ['basis', new RegExp(String.raw`(?<slash>\/)\s*${ARTICLE}${COUNTED}${OF_WATER}`, 'iuy')],
  ['basis', new RegExp(String.raw`${LINK}\s+${ARTICLE}${COUNTED}${OF_WATER}`, 'iuy')],
  ['basis', new RegExp(String.raw`(?:an?|each|every|the)\s+${COUNTED}${OF_WATER}`, 'iuy')],
  [
    'basis',
    new RegExp(
      String.raw`(?<count>${N})\s*(?<unit>${WATER}|mls?|millilit(?:re|er)s?)(?![\p{L}\d])\s*(?:of\s+)?(?<water>${WATER_NAME})`,
      'iuy',
    ),
  ],
  // so much water and nothing of it: `1 g base, 2 g kelp, one litre`
  [
    'basis',
    new RegExp(
      String.raw`(?:water\s*:?\s*)?(?<count>${N})\s*(?<unit>${WATER})(?![\p{L}\d])(?=\s*(?:[,;+&.:]|$))`,
      'iuy',
    ),
  ],
  [
    'amount',
    new RegExp(
      String.raw`${N}(?:\s*(?:-|–|—|to)\s*${N})?\s*(?:(?:${QUALITY})\s+)*(?:${MEASURE})\.?(?:\s+level)?(?![\p{L}\d])`,
      'iuy',
    ),
  ],
  [
    'amount',
    new RegExp(
      String.raw`an?\s+(?:(?:${QUALITY})\s+)*(?:${N}\s+)?(?:(?:${QUALITY})\s+)*(?:${MEASURE})(?![\p{L}\d])`,
      'iuy',
    ),
  ],
  [
    'joint',
    /(?<strong>[+;&\n])|,(?!\d)|(?:and\s+then|then|and|plus|followed\s+by|together\s+with|along\s+with|with)(?![\p{L}\d])/iuy,
  ],
  ['word', new RegExp(String.raw`[()]|(?:(?!\/\s*(?:${WATER})(?![\p{L}\d]))[^\s+;&,()])+|[,/]`, 'iuy')],
];

/** The pieces of a sentence whose numbers are figures; every character that is no blank is in one. */
export function tokensOf(text: string): Token[] {
  const tokens: Token[] = [];
  for (let at = 0; at < text.length; ) {
    if (/[^\S\n]/.test(text[at]!)) {
      at += 1;
      continue;
    }
    for (const [kind, pattern] of PATTERNS) {
      pattern.lastIndex = at;
      const match = pattern.exec(text);
      if (!match) continue;
      tokens.push(tokenOf(kind, match[0].trim(), match.groups ?? {}));
      at = pattern.lastIndex;
      break;
    }
  }
  return tokens;
}

function tokenOf(kind: Token['kind'], text: string, found: Record<string, string | undefined>): Token {
  if (kind === 'basis') {
    const volume = `${found.count ?? '1'} ${found.unit!}`.replace(/\s+/g, ' ');
    return { kind, text, volume, isSlash: found.slash !== undefined, water: found.water ?? null };
  }
  if (kind === 'joint') return { kind, text, isStrong: found.strong !== undefined };
  return kind === 'amount'
    ? { kind, text: text.replace(/\bcap(s?)$/i, 'capful$1').replace(/\bscoopful/i, 'scoop') }
    : { kind, text };
}
