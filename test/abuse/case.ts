import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { spelled } from '../../src/desk/options/option.js';
import { optionNamed } from '../../src/desk/options/table.js';
import { takenBy } from '../../src/cli/arguments.js';
import { COMMANDS } from '../../src/cli/commands.js';
import { Chance } from './chance.js';
import { RULES, slip, TEXTS } from './words.js';

/** A folder of files and a command line in it. */
export interface Case {
  seed: number;
  files: Record<string, string>;
  argv: string[];
}

const BENCHES = readdirSync('examples').map((name) => ({
  'bench.yaml': readFileSync(join('examples', name, 'bench.yaml'), 'utf8'),
  'shelf.csv': readFileSync(join('examples', name, 'shelf.csv'), 'utf8'),
}));

/** The case of a seed: the files of an example with a slip or two, or a command line with some. */
export async function caseOf(seed: number): Promise<Case> {
  const chance = new Chance(seed);
  const files: Record<string, string> = { ...chance.one(BENCHES) };
  // half the cases slip in the files, half in the words, some in both
  const inFiles = chance.yes(0.6);
  for (let slips = inFiles ? 1 + chance.below(3) : 0; slips > 0; slips -= 1) {
    const name = chance.yes(0.5) ? 'bench.yaml' : 'shelf.csv';
    files[name] = name === 'bench.yaml' ? yamlSlip(files[name]!, chance) : csvSlip(files[name]!, chance);
  }
  const argv = await line(chance, inFiles && chance.yes(0.8));
  return { seed, files, argv };
}

/** How often each is asked, in a hundred; the slow ones seldom. */
const ASKED: Readonly<Record<string, number>> = {
  labels: 34,
  programmes: 8,
  assess: 16,
  reach: 8,
  schema: 2,
  completion: 1,
};

async function line(chance: Chance, plain: boolean): Promise<string[]> {
  const quick = Object.entries(ASKED).flatMap(([name, times]) => Array<string>(times).fill(name));
  const rest = COMMANDS.map(({ name }) => name).filter((name) => !(name in ASKED));
  const name = chance.yes(0.8) ? chance.one(quick) : chance.one(rest);
  const command = await COMMANDS.find((one) => one.name === name)?.load();
  const words: string[] = [];
  if (command?.operands && (name === 'assess' || chance.yes(0.3))) words.push(operand(chance));
  const form = chance.one(['--json', '--csv', '--html', '', '', '']);
  if (form !== '') words.push(form);
  if (command && !plain) {
    for (let n = chance.below(4); n > 0; n -= 1) {
      const key = chance.one(takenBy(command));
      const { value } = optionNamed(key);
      words.push(`--${spelled(key)}`);
      if (value !== undefined && !chance.yes(0.05))
        words.push(key === 'to' ? target(chance) : key === 'rule' ? chance.one(RULES) : slip(chance));
    }
    if (chance.yes(0.1))
      words.push(
        chance.one([
          '--constructor',
          '--__proto__',
          '--',
          '-',
          '--json=x',
          '---',
          '--N',
          '-x',
          '--no-json',
          '--to.x=1',
          '--json.y',
        ]),
      );
  }
  return [chance.yes(0.02) ? chance.one(TEXTS) : name, ...words].map((word) => word.replaceAll('\u0000', ''));
}

const operand = (chance: Chance): string =>
  chance.one([
    '1/4 tsp fernhollow-base-a per gallon',
    '1 g/L calcium nitrate + 0.5 g/L Epsom salt',
    '30 ppm base then 70 ppm part-c in 3 L',
    'a teaspoon of 20-20-20 per US gallon weekly',
    slip(chance),
    `${slip(chance)} potassium-nitrate per L`,
    '1 g/L '.repeat(chance.below(2000)),
  ]);

const target = (chance: Chance): string =>
  chance.one([
    'out.csv',
    'out.html',
    'out.json',
    'shelf.csv',
    'bench.yaml',
    'gone/out.csv',
    '.',
    '/dev/full',
    `${'n'.repeat(400)}.csv`,
    'out.exe',
  ]);

function yamlSlip(text: string, chance: Chance): string {
  const lines = text.split('\n');
  const at = chance.below(lines.length);
  const now = lines[at]!;
  const kind = chance.below(8);
  if (kind === 0) lines.splice(at, 1);
  else if (kind === 1) lines.splice(at, 0, now);
  else if (kind === 2) lines[at] = ` ${now}`;
  else if (kind === 3) lines[at] = `${now.split(':')[0]}: ${chance.one(TEXTS)}`;
  else if (kind === 4) lines[at] = now.replace(/[^\s:]+(?=:)/, chance.one(TEXTS).slice(0, 400));
  else if (kind === 5) return text.slice(0, chance.below(text.length));
  else
    lines[at] = now
      .replace(/:\s*([^{[].*)?$/, `: ${slip(chance)}`)
      .replace(/(\w+): ([^,{}[\]]+)/, `$1: ${slip(chance)}`);
  return lines.join('\n');
}

function csvSlip(text: string, chance: Chance): string {
  const lines = text.split('\n');
  const kind = chance.below(10);
  const at = chance.below(lines.length);
  if (kind === 0) return text.slice(0, chance.below(text.length));
  if (kind === 1) return text.replaceAll(',', chance.one([';', '\t', '|']));
  if (kind === 2) lines.splice(at, 0, lines[at]!);
  else if (kind === 3)
    lines.splice(
      at,
      0,
      lines[at]!.replace(/^[\w-]+/, (id) => id.toUpperCase()),
    );
  else {
    const cells = lines[at]!.split(',');
    cells[chance.below(cells.length)] = slip(chance);
    lines[at] = cells.join(',');
  }
  return lines.join('\n');
}
