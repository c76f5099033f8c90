import ICAL from 'ical.js';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exampleFiles } from '../desk/benches.js';
import { folder, velamen } from './world.js';

const { bench, shelf } = exampleFiles('moss-without-ammonium');
const BENCH = { 'bench.yaml': bench!.text, 'shelf.csv': shelf!.text };

describe('a year as a calendar file', () => {
  it('is written, and written again over itself, but over no calendar of another', async () => {
    const home = folder({ ...BENCH, 'other.ics': 'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//another//EN\r\n' });
    const argv = ['season', '--from', '2026-12-01', '--to', 'year.ics'];
    const first = await velamen(argv, home);
    expect([first.exit, first.stdout.split('\n')[0]]).toEqual([
      0,
      'moss, 1 Dec 2026 to 29 Nov 2027: 520 L of feed for 1.86 EUR',
    ]);
    const text = readFileSync(join(home, 'year.ics'), 'utf8');
    expect(new ICAL.Component(ICAL.parse(text) as never).getAllSubcomponents('vevent')).toHaveLength(4);
    expect((await velamen(argv, home)).exit).toBe(0);
    expect(readFileSync(join(home, 'year.ics'), 'utf8')).toBe(text);
    const refused = await velamen(['season', '--from', '2026-12-01', '--to', 'other.ics'], home);
    expect([refused.exit, refused.stderr]).toEqual([2, expect.stringContaining('velamen did not write')]);
    expect(readFileSync(join(home, 'other.ics'), 'utf8')).toContain('another');
  });

  it('begins today where no day is named, and is no form of other commands', async () => {
    const home = folder(BENCH);
    const { stdout } = await velamen(['season', '--json'], home);
    expect(JSON.parse(stdout).from).toBe('2031-05-04');
    expect((await velamen(['blend', '--to', 'a.ics'], home)).stderr).toContain('a name that ends in');
  });
});
