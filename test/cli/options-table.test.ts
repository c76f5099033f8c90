import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { takenBy } from '../../src/cli/arguments.js';
import type { Command } from '../../src/cli/command.js';
import { COMMANDS } from '../../src/cli/commands.js';
import { meaning, written } from '../../src/cli/help.js';
import { OPTIONS, type OptionKey, optionNamed } from '../../src/desk/options/table.js';

const file = join(import.meta.dirname, '../../README.md');
const PART = /(?<=<!-- options: .*-->\n)[\s\S]*?(?=<!-- end of options -->)/;
const update = process.env.UPDATE_GOLDEN === '1' && !process.env.CI;
const keys = Object.keys(OPTIONS) as OptionKey[];

let commands: Command[];
beforeAll(async () => {
  commands = await Promise.all(COMMANDS.map(({ load }) => load()));
});

/** The commands that take an option; where most do, those that do not. */
function whose(takers: readonly string[]): string {
  const others = commands.map(({ name }) => name).filter((name) => !takers.includes(name));
  if (others.length === 0) return 'all';
  return others.length < 4 ? `all but ${others.join(', ')}` : takers.join(', ');
}

/** The table of options as README.md shows it. */
function markdown(): string {
  const rows = keys.map((key) => {
    const { unit, bench } = optionNamed(key);
    const takers = commands.filter((command) => takenBy(command).includes(key)).map(({ name }) => name);
    const cells = [
      `\`${written(key)}\``,
      `${meaning(key)}${unit === undefined ? '' : `; a bare number is ${unit}`}`,
      bench === undefined ? '' : `\`${bench}\``,
      whose(takers),
    ];
    return `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  });
  return ['| option | meaning | in bench.yaml | commands |', '|---|---|---|---|', ...rows, ''].join('\n');
}

describe('the table of options', () => {
  it('is the one that README.md shows', () => {
    const page = readFileSync(file, 'utf8');
    expect(PART.test(page)).toBe(true);
    if (update)
      writeFileSync(
        file,
        page.replace(PART, () => markdown()),
      );
    else expect(PART.exec(page)![0]).toBe(markdown());
  });

  it('holds no option that no command takes, and no command takes one twice', () => {
    for (const key of keys) expect(commands.some((command) => takenBy(command).includes(key))).toBe(true);
    for (const command of commands) expect(new Set(takenBy(command)).size).toBe(takenBy(command).length);
  });

  it('says each meaning in one line, for one word', () => {
    const meanings = keys.map((key) => optionNamed(key).says);
    expect(new Set(meanings).size).toBe(meanings.length);
    for (const says of meanings) {
      expect(says).not.toMatch(/\n|\.$/);
      expect(says.length).toBeLessThan(140);
    }
  });
});
