import { readBench, readCatalog, readProducts } from '../../src/catalog/index.js';
import { readSafety } from '../../src/catalog/hazards.js';
import { readCanLimits } from '../../src/catalog/can-limits.js';
import { MEDIA } from '../../src/programme/programme.js';
import { type PRACTICE_FILES, readPractice } from '../../src/catalog/practice.js';
import { readReferences, unreferenced } from '../../src/catalog/references.js';
import { type Problem, problemLine } from '../../src/problem.js';
import { LITTLE, littleCatalog } from '../catalog/little.js';
import { problemsOf } from '../catalog/told.js';

/** A file of the catalog, a shelf, or a bench. */
export type Kind =
  | 'shelf'
  | 'bench'
  | 'references'
  | 'pointing'
  | 'can-limits'
  | keyof typeof SAFETY
  | (typeof PRACTICE_FILES)[number]
  | keyof typeof LITTLE;

/** A file, and every line that is said about it: code, place, what was found, what was expected, how to mend it. */
export type Case = [kind: Kind, text: string, said: string[]];

/** What is said about a file of this kind with this text, as `code: line`. */
export function say(kind: Kind, text: string): string[] {
  return problems(kind, text).map((p) => `${p.code}: ${problemLine(p)}`);
}

export function problems(kind: Kind, text: string): Problem[] {
  if (kind === 'bench') return problemsOf(readBench(text, 'bench.yaml', littleCatalog()));
  if (kind === 'shelf') return problemsOf(readProducts(text, 'shelf.csv'));
  if (kind === 'can-limits') return problemsOf(readCanLimits(text, 'catalog/can-limits.csv'));
  if (kind === 'rests' || kind === 'flushes' || kind === 'humidities')
    return problemsOf(readPractice({ ...PRACTICE, [kind]: text }));
  if (kind === 'references') return problemsOf(readReferences(text));
  if (kind === 'pointing')
    return unreferenced(text, 'catalog/rules.csv', [{ key: 'memory', citation: 'none', read: 'memory' }]);
  if (kind === 'hazards' || kind === 'statements') return problemsOf(readSafety({ ...SAFETY, [kind]: text }));
  return problemsOf(readCatalog({ ...LITTLE, [kind]: text })).filter((p) => p.where.file === `catalog/${kind}.csv`);
}

const PRACTICE = {
  rests: 'plants,from,to\n*,11,2\n',
  flushes: `medium,every_weeks,pot_volumes\n${MEDIA.map((medium) => `${medium},4,2\n`).join('')}`,
  humidities: 'name,formula,humidity\nblend,blend,55\n',
};

const SAFETY = {
  hazards: 'name,formula,codes\nsaltpetre,KNO3,H272\n',
  statements: 'code,statement,group,mixture_from\nH272,May intensify fire,oxidiser,10\n',
};
