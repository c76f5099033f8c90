import { type Rest, refuse, span } from './rest.js';
import { SEASONS } from './spoken/spelled.js';
import type { Circumstances, Span } from './types.js';
import { NUMBER } from './words.js';

/** Takes the circumstances out of the words; refuses a minus before a figure. */
export function readCircumstances(rest: Rest): Circumstances {
  const minus = MINUS.exec(rest.text);
  if (minus) {
    rest.text = rest.text.replace(minus[1]!, minus[1]!.slice(1));
    refuse(
      rest,
      'advice-negative',
      `"${minus[1]}"`,
      'an amount above zero',
      'Leave the minus out; for a range write 70-80 ppm N or 70 to 80 ppm N.',
    );
  }
  const howOften = OFTEN.test(rest.whole);
  rest.drop(HOW_OFTEN);
  const dilution = readDilution(rest);
  const aboveWater = rest.take(ABOVE_WATER) !== null;
  const atMost = AT_MOST.test(rest.text);
  rest.drop(AT_MOST);
  return { aboveWater, atMost, howOften, dilution };
}

/** A minus that no figure stands before: `-1 tsp`, `EC -0.4`; `70 -80` is a range. */
const MINUS = /(?:^\s*|[a-z:=(,]\s+)([-−][\d.]+)/i;

/** Words that may tell how often. */
const OFTEN = /week|month|fortnight|daily|watering|always|constant|day/i;

/** How often a can is given says nothing of its strength. Figures in it must not be taken for amounts. */
const HOW_OFTEN = new RegExp(
  [
    String.raw`\b(?:once|twice|(?:\d+|two|three|four)\s+times)\s+(?:an?|per|every|each)\s+(?:${NUMBER}\s+|two\s+|second\s+|other\s+)?(?:days?|weeks?|months?|waterings?)\b`,
    String.raw`\b(?:every|each)\s+(?:\d+\s*(?:-|to)\s*\d+|\d+|two|three|four|second|third|fourth|other|\d(?:nd|rd|th))\s+(?:days?|weeks?|months?|waterings?)\b`,
    String.raw`\b(?:bi-?)?(?:weekly|monthly)\b|\bfortnightly\b|\bevery fortnight\b|\bdaily\b|\b(?:a|per|each|every)\s+(?:week|month|day)\b`,
    SEASONS,
  ].join('|'),
  'gi',
);

const OWN_WATER = String.raw`(?:(?:the|your|my|its|plain|own|raw|bare|tap|rain|source|base|starting)\s+)*(?:water|tap|rain|ro|source|base(?:line)?|background)\b(?:'s)?(?:\s+(?:ec|reading|alone|itself))?`;
/** `above the water`, `plus your tap water`, `on top of rain`. */
const ABOVE_WATER = new RegExp(
  String.raw`\b(?:above|over|on top of|plus|beyond|added to|in addition to|more than)\s+(?:that of\s+)?${OWN_WATER}`,
  'i',
);

/** `max EC 0.8`, `no more than 125 ppm N`, `up to 0.8 mS`. */
const AT_MOST =
  /\b(?:max(?:imum)?|at (?:the )?most|no more than|not more than|(?:never|do not|don't|dont)\s+(?:(?:go|be|get|let (?:it|them) (?:go|get)|exceed)\s+)?(?:more than|over|above|past|beyond|exceed)|(?<!\d\s)up to|(?:no|not) (?:higher|greater|stronger|over|above|exceeding)(?: than)?|lower than|below|under|less than)\b(?:\s+of\b)?|≤|<=?/i;

const DEVICE = '(?:injectors?|proportioners?|injections?|dosers?|dilut(?:ion|ed?|er)|stock|concentrate|siphon|ratio)';
const PARTS = String.raw`1\s*(?::|\/|in|to)\s*(?<parts>\d{1,4})(?![\d.]|\s*[-–]\s*\d)`;
const PERCENT = String.raw`(?<percent>${NUMBER})\s*%`;
const BEFORE = new RegExp(
  String.raw`(?:\b(?:in|with|through|by|via|on|using)\s+)?(?:\b(?:an?|the)\s+)?\b${DEVICE}\s+(?:of\s+|at\s+|set\s+(?:to|at)\s+|to\s+)?(?:${PARTS}|${PERCENT})`,
  'i',
);
const AFTER = new RegExp(
  String.raw`(?:\b(?:in|with|through|by|at|via|on|using|for)\s+)?(?:\b(?:an?|the)\s+)?(?:\b${PARTS}|${PERCENT})\s*(?:\b(?:hose[- ]end|in-?line|stock|feed)\s+)?\b${DEVICE}\b(?:\s+(?:rate|setting|ratio))?`,
  'i',
);

/** One part in a hundred, or one part to a hundred of water: words do not tell, and the two differ by 1 %. */
function readDilution(rest: Rest): Span | null {
  const found = rest.take(AFTER) ?? rest.take(BEFORE);
  if (!found) return null;
  rest.drop(/\b(?:stock|concentrate)\b/gi);
  if (found.percent !== undefined) {
    const { low } = span(rest, { from: found.percent });
    if (low > 0 && low <= 50) return { low: low / 100, high: low / 100 };
  } else {
    const parts = Number(found.parts);
    if (parts >= 2) return { low: 1 / (parts + 1), high: 1 / parts };
  }
  refuse(rest, 'advice-dilution', `"${found.whole}"`, 'one part of stock in two or more', 'Write for example 1:100.');
  return null;
}
