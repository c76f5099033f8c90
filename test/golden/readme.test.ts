import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { velamen } from '../cli/world.js';
import { shellWords } from './golden.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const file = join(root, 'README.md');
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

  it('names only commands that run', async () => {
    const text = readFileSync(file, 'utf8');
    const blocks = text.match(/^ {4}velamen .*$/gm) ?? [];
    expect(blocks.length).toBeGreaterThan(5);
    const inline = [...text.matchAll(/`(velamen assess "[^`]*)`/g)].map(([, line]) => line!);
    expect(inline.length).toBeGreaterThan(0);
    for (const line of [...blocks.filter((l) => l.includes('--bench')), ...inline]) {
      const ran = await velamen(shellWords(line.replace(/\s+#.*$/, '').trim()).slice(1), root);
      expect(ran.exit, `${line}\n${ran.stderr}`).not.toBe(1);
      expect(ran.exit, `${line}\n${ran.stderr}`).not.toBe(2);
    }
    // buy alone takes several seconds, more where other tests share the machine
  });
});
