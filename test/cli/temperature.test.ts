import { describe, expect, it } from 'vitest';
import { folder, velamen } from './world.js';

describe('--temperature', () => {
  const recipe = ['assess', '1 g potassium-nitrate in 1 L', '--water', 'pure'];

  it.each(['18 °C', '18', '18 C', '64.4 °F'])('%s', async (text) => {
    const { exit, stdout } = await velamen([...recipe, '--temperature', text], folder());
    expect(exit).toBe(0);
    expect(stdout).toMatch(/At 18 °C: 1\.\d+ mS\/cm/);
  });

  it.each(['warm', '-3 °C', '90 °C'])('refuses "%s"', async (text) => {
    const { exit, stderr } = await velamen([...recipe, `--temperature=${text}`], folder());
    expect(exit).toBe(2);
    expect(stderr).toMatch(/a temperature from 0 to 40 °C/);
  });
});
