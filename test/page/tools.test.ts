import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { toolQuestion } from '../../src/page/work/tools.js';
import { folder, velamen } from '../cli/world.js';

const MOSS = fileURLToPath(new URL('../../examples/moss-without-ammonium', import.meta.url));
const texts = Object.fromEntries(
  ['bench.yaml', 'shelf.csv'].map((file) => [file, readFileSync(join(MOSS, file), 'utf8')]),
);
const ask = (tool: Parameters<typeof toolQuestion>[0]['tool'], wishes: object) =>
  toolQuestion({ texts, tool, wishes }, () => undefined);

describe('the tools of the page', () => {
  it('write what a spoon weighs onto the shelf as the command line does, byte for byte', async () => {
    const home = folder();
    cpSync(MOSS, home, { recursive: true });
    const words = 'ten level 1/4 tsp of potassium-nitrate weigh 13.6 g';
    await velamen(['meter', '--bench', home, '--weigh', words, '--save'], home);
    const view = await ask('weigh', { product: 'potassium-nitrate', weigh: '10 level 1/4 tsp weigh 13.6 g' });
    expect(view.shelf).toBe(readFileSync(join(home, 'shelf.csv'), 'utf8'));
    expect(view.shelf).not.toBe(texts['shelf.csv']);
  });

  it.each([
    ['standard', { standard: '1413 µS', reads: '1350 µS' }, ['meter', '--standard', '1413 µS', '--reads', '1350 µS']],
    ['reach', { feed: 'moss' }, ['reach', '--bench', MOSS, '--feed', 'moss']],
    [
      'assess',
      { feed: 'moss', recipe: '1 g sample-base in 4 L' },
      ['assess', '1 g sample-base in 4 L', '--bench', MOSS, '--feed', 'moss'],
    ],
    [
      'concentrate',
      { feed: 'moss', jug: '500 mL' },
      ['concentrate', '--bench', MOSS, '--feed', 'moss', '--jug', '500 mL'],
    ],
  ] as const)('%s: answers as the command line does', async (tool, wishes, argv) => {
    const { title } = await ask(tool, wishes);
    const { stdout } = await velamen([...argv], MOSS);
    expect(stdout.replace(/\s+/g, ' ')).toContain(title.replace(/\s+/g, ' '));
  });
});
