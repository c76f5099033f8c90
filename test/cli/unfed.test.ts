import { describe, expect, it } from 'vitest';
import { SHELVES } from '../nutrition/shelves.js';
import { folder, velamen } from './world.js';

describe('a feed that is none, on the command line', () => {
  const home = (): string => folder({ 'shelf.csv': SHELVES['plain salts'] });
  const nobile = [
    '--plants',
    'nobile',
    '--medium',
    'lava rock',
    '--phase',
    'winter',
    '--water',
    'rain',
    '--shelf',
    'shelf.csv',
  ];

  it('is a sentence of blend, with what stands behind it, and no failure', async () => {
    const { exit, stdout, stderr } = await velamen(['blend', ...nobile], home());
    expect([exit, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/: do not feed\n\nDo not feed\. Water plainly from when the canes have ripened/);
    expect(stdout).toContain('dendrobium-nobile in clay, rest');
    expect(stdout).not.toMatch(/\d g\b/);
  });

  it('is told as JSON by its status', async () => {
    const { exit, stdout } = await velamen(['blend', ...nobile, '--json'], home());
    expect(exit).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      status: 'unfed',
      says: expect.stringMatching(/^Do not feed\. Water plainly from when /),
    });
  });

  it('has no sheet: that is refused, in the same words', async () => {
    const { exit, stdout, stderr } = await velamen(['sheet', ...nobile, '--mix', '4 L'], home());
    expect([exit, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/Do not feed: water plainly from when the canes have ripened/);
  });
});
