import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isFile, readText } from '../files/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Command } from './command.js';
import { openInBrowser } from './open.js';

/** The page: the whole job in a browser, as one file that asks the network nothing. */
export const pageCommand: Command = {
  name: 'page',
  examples: [
    {
      line: 'velamen page --to velamen.html --open',
      says: 'writes the page and shows it in the browser of this machine',
    },
  ],
  about: [
    'One file that holds everything: open it from disk, or carry it to a phone. It works without a network and keeps its bench in that browser; its files are the same bench.yaml, shelf.csv and journal.csv.',
  ],
  options: ['open', 'to', 'html', 'replace'],
  forms: () => ['txt', 'html'],
  async run({ outputs: { files, print }, words }, io) {
    if (files.length === 0 && (print !== 'html' || words.open)) throw new Refusal([nowhere()]);
    const { text } = readText(built(), io.cwd);
    const named = files.map(({ path }) => path);
    const [first] = named;
    return {
      exit: 0,
      forms: { txt: () => `The page is in ${named.join(', ')}: open it in a browser.\n`, html: () => text },
      warnings: [],
      ...(words.open && first !== undefined ? { afterwards: () => openInBrowser(first, io) } : {}),
    };
  },
};

/** Beside the command line that was built; run from its sources it takes the one that was built last. */
function built(): string {
  const here = dirname(fileURLToPath(import.meta.url));
  const found = ['page.html', '../../dist/page.html'].find((name) => isFile(name, here));
  if (found === undefined) throw new Refusal([notBuilt()]);
  return fileURLToPath(new URL(found, import.meta.url));
}

const nowhere = (): Problem =>
  problem('page-nowhere', { field: '--to' }, 'no file to write the page into', 'a name', 'Say --to velamen.html.');

const notBuilt = (): Problem =>
  problem('page-not-built', {}, 'no page in this package', 'page.html in dist', 'Build it: npm run page.');
