import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { folder, velamen } from '../cli/world.js';
import { readGolden, shellWords } from './golden.js';

const here = fileURLToPath(new URL('.', import.meta.url));
const root = fileURLToPath(new URL('../..', import.meta.url));
const file = join(root, 'README.md');
const examples = join(root, 'examples');
const BLOCK = /<!-- output: velamen ([^\n]*?) -->\n```\n([\s\S]*?)```/g;
const update = process.env.UPDATE_GOLDEN === '1' && !process.env.CI;

describe('README', () => {
  it('shows what the commands really print', async () => {
    let text = readFileSync(file, 'utf8');
    const blocks = [...text.matchAll(BLOCK)];
    expect(blocks.length).toBeGreaterThan(0);
    for (const [whole, line, shown] of blocks) {
      const ran = await velamen(shellWords(line!), root);
      if (update)
        text = text.replace(whole, () => whole.replace(/```\n[\s\S]*```/, () => `\`\`\`\n${ran.stdout}\`\`\``));
      else expect(shown).toBe(ran.stdout);
    }
    if (update) writeFileSync(file, text);
  });

  it('names only commands that run, and so do the examples', async () => {
    const pages = [file, ...readdirSync(examples).map((name) => join(examples, name, 'README.md'))];
    const shown = pages.map((page) => readFileSync(page, 'utf8').match(/^ {4}velamen .*$/gm) ?? []);
    expect(shown.every((lines) => lines.length > 0)).toBe(true);
    const lines = new Set(shown.flat().map((line) => line.replace(/\s+#.*$/, '').trim()));
    // the reader's own bench is begun in a folder with a label in it
    const home = folder({ 'label.txt': 'Sample Feed 10-4-8\nTotal Nitrogen (N) 10%\n' });
    // and a journal is kept beside the bench of an example
    const text = (name: string) => readFileSync(join(examples, 'moss-without-ammonium', name), 'utf8');
    const diary = folder({ 'bench.yaml': text('bench.yaml'), 'shelf.csv': text('shelf.csv') });
    // what a golden file shows too is run there; here its exit code is enough
    const goldens = readdirSync(here)
      .filter((name) => name.endsWith('.golden'))
      .map((name) => readGolden(readFileSync(join(here, name), 'utf8')));
    const exits = new Map(goldens.map(({ line, expected }) => [line, expected?.exit]));
    for (const line of lines) {
      const known = exits.get(line);
      if (known !== undefined) {
        expect([0, 3], line).toContain(known);
        continue;
      }
      const place = /\bmine\b/.test(line) ? home : /^velamen journal (?!.*--bench)/.test(line) ? diary : root;
      const ran = await velamen(shellWords(line).slice(1), place);
      expect([0, 3], `${line}\n${ran.stderr}`).toContain(ran.exit);
    }
    // buy alone takes several seconds, more where other tests share the machine
  });
});
