/** A calendar as RFC 5545 has it: lines end in CR LF, none is longer than 75 octets, texts are escaped. */

/** A date that takes a whole day, told in plain text; it comes back every so many weeks, so many times. */
export interface IcsEvent {
  /** Tells it from every other, the same each time the same thing is written. */
  identity: string;
  /** `2026-12-01`. */
  day: string;
  everyWeeks: number;
  times: number;
  summary: string;
  description: string;
}

/** @param made the day that stands for when it was written, so that the same question gives the same bytes */
export function renderIcs(name: string, made: string, events: readonly IcsEvent[]): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//velamen//season//EN',
    'CALSCALE:GREGORIAN',
    `NAME:${escaped(name)}`,
    ...events.flatMap((event) => eventLines(event, made)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

const eventLines = ({ identity, day, everyWeeks, times, summary, description }: IcsEvent, made: string): string[] => [
  'BEGIN:VEVENT',
  `UID:${uidOf(identity)}`,
  `DTSTAMP:${digits(made)}T000000Z`,
  `DTSTART;VALUE=DATE:${digits(day)}`,
  ...(times < 2 ? [] : [`RRULE:FREQ=WEEKLY;${everyWeeks === 1 ? '' : `INTERVAL=${everyWeeks};`}COUNT=${times}`]),
  `SUMMARY:${escaped(summary)}`,
  ...(description === '' ? [] : [`DESCRIPTION:${escaped(description)}`]),
  'TRANSP:TRANSPARENT',
  'END:VEVENT',
];

const digits = (day: string): string => day.replaceAll('-', '');

/** Backslash, semicolon, comma and line break are written with a backslash; other control marks may not stand in a text, and lone halves of a letter are none. */
export const escaped = (text: string): string =>
  text
    .replace(/\p{Cs}/gu, ' ')
    .replace(/\r\n?/g, '\n')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
    .replace(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, ' ')
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');

const MOST_OCTETS = 75;

/** Cut between letters, so that no octet of one is parted from the others; what goes on begins with a blank. */
function folded(line: string): string {
  const pieces: string[] = [];
  let piece = '';
  let octets = 0;
  for (const letter of line) {
    const size = ENCODER.encode(letter).length;
    if (octets + size > MOST_OCTETS) {
      pieces.push(piece);
      piece = ' ';
      octets = 1;
    }
    piece += letter;
    octets += size;
  }
  return [...pieces, piece].join('\r\n');
}

const ENCODER = new TextEncoder();

/** A UUID made of the identity (RFC 9562, version 8): four runs of FNV-1a with a last mixing. */
function uidOf(identity: string): string {
  const words = [0, 1, 2, 3].map((seed) => hashOf(`${seed}:${identity}`).toString(16).padStart(8, '0')).join('');
  return [
    words.slice(0, 8),
    words.slice(8, 12),
    `8${words.slice(13, 16)}`,
    `a${words.slice(17, 20)}`,
    words.slice(20),
  ].join('-');
}

function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const octet of ENCODER.encode(text)) hash = Math.imul(hash ^ octet, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x45d9f3b);
  return (hash ^ (hash >>> 15)) >>> 0;
}
