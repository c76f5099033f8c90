import { describe, expect, it } from 'vitest';
import { takenBy } from '../../src/cli/arguments.js';
import { COMMANDS } from '../../src/cli/commands.js';
import { dashed } from '../../src/desk/options/option.js';
import { jsonText } from '../../src/report/json-text.js';
import { refusedShape } from '../../src/report/schemas.js';
import { folder, velamen } from './world.js';

describe('the command line', () => {
  it('without a command says what there is', async () => {
    const ran = await velamen([], folder());
    expect(ran).toMatchObject({ exit: 0, stderr: '' });
    for (const command of COMMANDS) expect(ran.stdout).toContain(`  ${command.name} `);
  });

  it('prints its version', async () => {
    expect((await velamen(['--version'], folder())).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });

  it.each(COMMANDS.map((c) => [c.name, c] as const))(
    '%s -h is led by an example and lists every option',
    async (name, { load }) => {
      const ran = await velamen([name, '-h'], folder());
      expect(ran.exit).toBe(0);
      expect(ran.stdout.startsWith(`  velamen ${name}`)).toBe(true);
      const command = await load();
      expect(command.name).toBe(name);
      for (const option of takenBy(command)) expect(ran.stdout).toContain(`  ${dashed(option)}`);
      for (const line of ran.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    },
  );

  it.each([
    [['blned'], '`velamen blend`'],
    [['constructor'], '`velamen -h`'],
    [['--json', 'blend'], 'a command first'],
    [['schema', 'blend', 'reach'], '"reach"'],
    [['schema', '--jsn'], '--jsn'],
    [['schema', 'blnd'], 'Did you mean blend?'],
    [['schema', '__proto__'], '"__proto__"'],
  ])('refuses %j with a fix', async (argv, hint) => {
    const ran = await velamen(argv, folder());
    expect(ran).toMatchObject({ exit: 2, stdout: argv.includes('--json') ? expect.any(String) : '' });
    expect(ran.stderr).toContain(hint);
    expect(ran.stderr).not.toMatch(/\n {4}at /);
  });

  it('refuses in JSON where JSON was asked for', async () => {
    const ran = await velamen(['blned', '--json'], folder());
    expect(ran.exit).toBe(2);
    expect(refusedShape.parse(JSON.parse(ran.stdout)).problems[0]?.code).toBe('unknown-command');
  });

  it('calls a fault of ours by its name, in one line', async () => {
    const broken = {
      ...COMMANDS[0]!,
      name: 'broken',
      load: async () => ({
        ...(await COMMANDS[0]!.load()),
        run: async () => {
          throw new Error('a gear slipped\nsecond line');
        },
      }),
    };
    const commands = COMMANDS as unknown as (typeof broken)[];
    commands.push(broken);
    try {
      const ran = await velamen(['broken'], folder());
      expect(ran).toEqual({
        exit: 1,
        stdout: '',
        stderr: expect.stringMatching(/^velamen: a fault of ours, not yours: a gear slipped\. .*report.*\n$/),
      });
      const debug = await velamen(['broken'], folder(), { env: { VELAMEN_DEBUG: '1' } });
      expect(debug.stderr).toContain('    at ');
    } finally {
      commands.pop();
    }
  });

  it('never prints a number that JSON cannot hold', () => {
    expect(() => jsonText({ a: [Number.NaN] })).toThrow('NaN');
    expect(jsonText({ a: 1e-7 })).toBe('{\n  "a": 1e-7\n}\n');
  });
});
