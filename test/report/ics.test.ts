import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { escaped, type IcsEvent, renderIcs } from '../../src/report/ics.js';

const event = (more: Partial<IcsEvent> = {}): IcsEvent => ({
  identity: 'mix moss',
  day: '2026-12-01',
  everyWeeks: 1,
  times: 1,
  summary: 'Mix',
  description: '',
  ...more,
});

/** What a reader of calendars makes of it. */
const read = (text: string) =>
  new ICAL.Component(ICAL.parse(text) as never)
    .getAllSubcomponents('vevent')
    .map((component) => new ICAL.Event(component));

const HOSTILE = [
  'a\r\nEND:VEVENT\r\nBEGIN:VALARM',
  'semicolon; comma, backslash \\ quote " colon:',
  '\\n is no line break',
  'Ünïcode 兰花 🌸'.repeat(20),
  `${'x'.repeat(74)}🌸🌸`,
  '\u202egnp.exe\u202c\u0007',
  '=cmd|calc',
  '\ud83c alone',
];

describe('a calendar', () => {
  it('is read back by a reader of calendars as it was meant, whatever the names', () => {
    for (const summary of HOSTILE) {
      const text = renderIcs(summary, '2026-12-01', [event({ summary, description: `${summary}\n${summary}` })]);
      const [one, ...others] = read(text);
      expect(others).toEqual([]);
      const plain = summary
        .replace(/\p{Cs}/gu, ' ')
        .replace(/\r\n/g, '\n')
        .replace(/(?!\n)[\p{Cc}\u202c\u202e]+/gu, ' ');
      expect(one!.summary).toBe(plain);
      expect(one!.description).toBe(`${plain}\n${plain}`);
    }
  });

  it('keeps the rules of RFC 5545 on lines: CR LF, 75 octets, no letter cut in two (3.1)', () => {
    const text = renderIcs(
      'a',
      '2026-12-01',
      HOSTILE.map((summary, i) => event({ identity: `${i}`, summary })),
    );
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const decoder = new TextDecoder('utf-8', { fatal: true });
    for (const line of text.split('\r\n')) {
      const octets = new TextEncoder().encode(line);
      expect(octets.length).toBeLessThanOrEqual(75);
      expect(() => decoder.decode(octets)).not.toThrow();
      expect(line).toBe(line.replace(/\p{Cs}|\p{Cc}/gu, ''));
    }
  });

  it('has what a calendar needs and each event needs, once (3.6, 3.6.1)', () => {
    const text = renderIcs('a', '2026-12-01', [event({ times: 3, everyWeeks: 4 }), event({ identity: 'other' })]);
    for (const must of ['VERSION:2.0', 'PRODID:']) expect(text.split(must)).toHaveLength(2);
    for (const part of text.split('BEGIN:VEVENT').slice(1))
      for (const must of ['UID:', 'DTSTAMP:', 'DTSTART;']) expect(part.split(`\r\n${must}`)).toHaveLength(2);
    const uids = [...text.matchAll(/UID:(.*)\r/g)].map(([, uid]) => uid);
    expect(new Set(uids).size).toBe(2);
    // RFC 9562, version 8, variant 10
    for (const uid of uids) expect(uid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-a[0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(text).toContain('DTSTAMP:20261201T000000Z\r\n');
    expect(text).toContain('DTSTART;VALUE=DATE:20261201\r\n');
    expect(text).toContain('RRULE:FREQ=WEEKLY;INTERVAL=4;COUNT=3\r\n');
    expect(renderIcs('a', '2026-12-01', [event()])).toBe(renderIcs('a', '2026-12-01', [event()]));
  });

  it('comes back as often as it says, on whole days', () => {
    const [one] = read(renderIcs('a', '2026-12-01', [event({ times: 3, everyWeeks: 4 })]));
    const days = one!.iterator();
    const all = [];
    for (let day = days.next(); day; day = days.next()) all.push(day.toString());
    expect(all).toEqual(['2026-12-01', '2026-12-29', '2027-01-26']);
    expect(one!.startDate.isDate).toBe(true);
  });

  it('escapes texts as 3.3.11 says', () => {
    expect(escaped('a,b;c\\d\ne:f"')).toBe('a\\,b\\;c\\\\d\\ne:f"');
  });
});
