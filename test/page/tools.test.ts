import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/report/sheet.js';
import { toolQuestion } from '../../src/page/work/tools.js';
import { folder, velamen } from '../cli/world.js';

const MOSS = fileURLToPath(new URL('../../examples/moss-without-ammonium', import.meta.url));
const texts = Object.fromEntries(
  ['bench.yaml', 'shelf.csv'].map((file) => [file, readFileSync(join(MOSS, file), 'utf8')]),
);
type Asked = Parameters<typeof toolQuestion>[0];
const ask = (tool: Asked['tool'], wishes: object, beside?: Asked['beside']) =>
  toolQuestion({ texts, tool, wishes, ...(beside ? { beside } : {}) }, () => undefined);
const squeezed = (text: string): string => text.replace(/\s+/g, ' ');
/** Every cell of the tables of a report. */
const cellsOf = (blocks: readonly Block[]): string[] =>
  blocks.flatMap((block) => (block.kind === 'table' ? block.rows.flat() : [])).filter((cell) => cell !== '');

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

  it.each([
    [{}, []],
    [{ plants: 'phalaenopsis', medium: 'bark' }, ['--plants', 'phalaenopsis', '--medium', 'bark']],
    [{ phase: 'rest' }, ['--phase', 'rest']],
  ])('list the programmes of %o as the command line does', async (wishes, narrowed) => {
    const { title, blocks } = await ask('programmes', wishes);
    const { stdout } = await velamen(['blend', '--programmes', ...narrowed], MOSS);
    const said = squeezed(stdout);
    expect(said).toContain(squeezed(title));
    expect(cellsOf(blocks).length).toBeGreaterThan(20);
    for (const cell of cellsOf(blocks)) expect(said).toContain(squeezed(cell));
  });

  it('price every limit and every jar of a feed as the command line does', async () => {
    const { title, blocks } = await ask('prices', { feed: 'moss' });
    const { stdout } = await velamen(['blend', '--bench', MOSS, '--feed', 'moss', '--prices', '--full'], MOSS);
    expect(squeezed(stdout)).toContain(squeezed(title));
    expect(stdout).toContain('insist');
    expect(blocks[0]).toMatchObject({ kind: 'heading', text: 'What it costs to insist (shadow prices)' });
    const items = blocks.flatMap((block) => (block.kind === 'list' ? block.items : []));
    expect([...items, ...cellsOf(blocks)].length).toBeGreaterThan(5);
    for (const item of items) expect(squeezed(stdout)).toContain(squeezed(item));
    const said = squeezed(stdout);
    for (const cell of cellsOf(blocks)) expect(said).toContain(squeezed(cell));
  });

  it('set another shelf beside this one, with the figures of the command line', async () => {
    const text = texts['shelf.csv']!.split('\n').slice(0, 5).join('\n');
    const home = folder({ 'theirs.csv': text });
    const { title, blocks, met } = await ask('against', { feed: 'moss' }, { name: 'theirs.csv', text });
    const argv = ['reach', '--bench', MOSS, '--feed', 'moss', '--against', 'theirs.csv'];
    const { stdout, exit } = await velamen(argv, home);
    expect(title).toBe('moss: two shelves side by side');
    expect(met).toBe(exit === 0);
    expect(cellsOf(blocks).length).toBeGreaterThan(20);
    for (const cell of cellsOf(blocks)) expect(squeezed(stdout)).toContain(squeezed(cell));
  });
});
