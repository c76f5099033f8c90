import { spelledOut } from '../units/index.js';
import { isElement } from './named-product.js';
import { NUMBER } from './words.js';

/** What a part of a recipe says of the pen, not yet read: so much more, or until it shows so much. */
export interface PenWords {
  by: 'more' | 'until';
  figure: string;
  /** null for a bare number. */
  unit: 'ppm' | 'mS/cm' | 'µS/cm' | null;
  /** The product; empty where it is the one before. */
  name: string;
  /** True for `100 ppm N of base` and `30 ppm calcium`, which are milligrams of an element unless a product is called so. */
  element: boolean;
}

/** What a recipe says of the pen's scale, and the recipe without it. */
export function scaleInWords(text: string): { text: string; scale: number | null } {
  const found = SCALE.exec(text);
  if (!found) return { text, scale: null };
  const number = Number(found.groups!.scale!.replace(',', '.'));
  return { text: text.replace(SCALE, ' ').replace(/\s+/g, ' ').trim(), scale: number < 1 ? number * 1000 : number };
}

/**
 * `30 ppm kelp`, `60 µS more of base`, `kelp 8 ppm`, `base until it shows 160`, `up to 160 ppm with base`, `pinches until 121`. Null where the
 * words say nothing of a pen.
 */
export function penWordsOf(part: string): PenWords | null {
  const text = spelledOut(part).replace(/\s+/g, ' ').replace(LEAD, '');
  for (const [by, pattern] of PATTERNS) {
    const found = pattern.exec(text)?.groups;
    if (!found) continue;
    const said = (found.name ?? '').replace(/^of\s+/i, '').trim();
    const name = by === 'until' ? named(said) : said;
    return { by, figure: found.figure!, unit: unitOf(found), name, element: by === 'more' && isElementOf(name) };
  }
  return null;
}

const LEAD = /^(?:(?:and|then|next|finally|lastly|first|now|add|dose|give|put in|stir in|with)\s+)*/i;
// written out case by case, for `µS` must not match the US of a teaspoon
const UNIT = String.raw`(?:(?<ppm>(?:[Tt][Dd][Ss]\s+)?[Pp]\.?[Pp]\.?[Mm]\.?(?![\p{L}])(?:\s+[Tt][Dd][Ss](?!\p{L}))?|[Tt][Dd][Ss](?!\p{L}))|(?<milli>(?:m[Ss]|[Mm]illi\s?[Ss]iemens|d[Ss])(?:\s*(?:\/|per)\s*c?m)?(?!\p{L})|EC(?!\p{L}))|(?<micro>(?:[µu][Ss]|[Mm]icro\s?[Ss]iemens)(?:\s*(?:\/|per)\s*cm)?(?!\p{L})(?!\s+(?:tsp|tbsp|tea|table|cup|gal|fl|oz|qt|quart|pt|pint))))`;
const FIGURE = `(?:EC\\s*(?:of|=|:)?\\s*)?(?<figure>${NUMBER}(?:\\s*(?:-|–|—)\\s*${NUMBER})?)`;
const SHOWS = String.raw`(?:(?:it|that|the pen|pen|the meter|meter|the can|the reading|the total|total)\s+)*(?:shows?|reads?|says?|is|reache?s?|at|hits?|gets? to|comes? to|stands? at)?\s*(?:about\s+|around\s+)?`;
const UNTIL = String.raw`(?:until|till?|up\s?to|to)\s+${SHOWS}`;
const WHOLE = String.raw`(?:\s+(?:on the (?:pen|meter)|in all|in total|total|altogether))*`;
const MORE = String.raw`(?:\s+(?:more|extra|worth|on the (?:pen|meter)|by the (?:pen|meter)))*`;

const pattern = (text: string): RegExp => new RegExp(`^${text}$`, 'u');
const PATTERNS: readonly (readonly [PenWords['by'], RegExp])[] = [
  ['until', pattern(String.raw`(?:(?<name>\S.*?)\s+)?${UNTIL}${FIGURE}\s*${UNIT}?${WHOLE}`)],
  [
    'until',
    pattern(
      String.raw`(?:(?:bring|take|top|raise|go|fill|make)\s+)?(?:(?:it|the pen|the can|that)\s+)?(?:up\s+)?${UNTIL}${FIGURE}\s*${UNIT}?${WHOLE}\s+(?:with|by|using|of|from)\s+(?<name>\S.*)`,
    ),
  ],
  [
    'more',
    pattern(
      String.raw`(?:(?:raise|lift|increase)\s+(?:(?:it|the pen|the can|that)\s+)?by\s+)?(?:another\s+)?${FIGURE}\s*(?:more\s+|extra\s+)?${UNIT}${MORE}(?:\s+(?:of|from|by|with|as|using))?\s+(?<name>\S.*)`,
    ),
  ],
  [
    'more',
    pattern(
      String.raw`(?<name>\S.*?)(?:\s*[:=]\s*|\s+(?:(?:for|by|worth|to give|to add)\s+)?)(?:plus\s+)?${FIGURE}\s*${UNIT}${MORE}`,
    ),
  ],
];

const unitOf = ({ ppm, milli, micro }: Record<string, string | undefined>): PenWords['unit'] =>
  ppm !== undefined ? 'ppm' : milli !== undefined ? 'mS/cm' : micro !== undefined ? 'µS/cm' : null;

/** `pinches of base`, `a little more`, `it`: how it is put in says nothing of what. */
const named = (name: string): string =>
  name
    .replace(/^(?:bring|take|top|raise|go|fill)\b\s*(?:(?:it|the pen|the can)\b\s*)?/i, '')
    .replace(
      /^(?:(?:a|some|few|a few|little|a little|bit|a bit|more|tiny|small|single)\s+)*(?:pinch(?:es)?|bits?|grains?|drops?)\b\s*(?:of\s+)?/i,
      '',
    )
    .replace(/^(?:more|a little more|a bit more|a little|some more|some)\b\s*(?:of\s+)?/i, '')
    .replace(/^(?:it|that|the same|the rest)$/i, '')
    .trim();

/** `N`, `N of base` or `N base`, `calcium`, `calcium from base`: milligrams of an element. */
const isElementOf = (name: string): boolean =>
  SYMBOL.test(name) || (ELEMENT.test(name) && isElement(name.replace(OF, '')));

const OF = /\s+(?:of|from|by|with|in|as|using)\s.*$/i;
const ELEMENT = /^[a-z]+(?:\s+(?:of|from|by|with|in|as|using)\s.*)?$/i;
// symbols by their case, for `ca` or `mg` may be anything
const SYMBOL = /^(?:total\s+)?(?:N|P|K|S|Ca|Mg|Na|Cl|Fe|Mn|Zn|Cu|B|Mo|Si|P2O5|K2O|CaO|MgO|N[OH][34](?:-N)?)(?:\s|$)/;

const SCALE =
  /[([,]?\s*(?:\b(?:on|by|with|using)\s+)?(?:\b(?:an?|the|my|our)\s+)?\b(?:scale\s+(?:of\s+)?)?(?<scale>500|640|700|0?[.,]5|0?[.,]64|0?[.,]7)[ -]*(?:ppm[ -]*)?(?:tds[ -]*)?(?:scale|pen|meter|factor|conversion)\b\s*[)\]]?/i;
