import { type Catalog, findMedium, findPlants } from '../../catalog/catalog.js';
import type { Medium } from '../../programme/programme.js';
import { type Checked, type Problem, problem, type Where } from '../../problem.js';

/** Plants in a medium, as the grower names them. */
export interface Grown {
  /** The grower's own words. */
  words: string;
  plants: string;
  /** Null where nobody told it. */
  medium: Medium | null;
}

/** `moth orchids in bark, pleurothallids in moss`. @returns every name that is not known, and every medium that its plants have no programme for */
export function readGrown(text: string, catalog: Catalog, where: Where): Checked<Grown[]> {
  const problems: Problem[] = [];
  const grown = text
    .split(/[,;\n]|\band\b(?=.*\bin\b)|&/i)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .flatMap((part): Grown[] => {
      // a group's own name may hold the word, so the whole is tried first
      const [, named = part, inside] = findPlants(catalog, part).ok
        ? []
        : (/^(.+?)\s+(?:in|on)\s+(.+)$/i.exec(part) ?? []);
      const plants = findPlants(catalog, named, where);
      const medium = inside === undefined ? null : findMedium(catalog, inside, where);
      if (!plants.ok) problems.push(...plants.problems);
      if (medium !== null && !medium.ok) problems.push(...medium.problems);
      if (!plants.ok || (medium !== null && !medium.ok)) return [];
      return [{ words: named, plants: plants.value, medium: medium === null ? null : medium.value }];
    });
  for (const one of grown) problems.push(...mediumProblems(one, catalog, where));
  if (grown.length === 0 && problems.length === 0)
    problems.push(problem('no-plants', where, `"${text}"`, 'plants', EXAMPLE));
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: grown, warnings: [] };
}

const EXAMPLE = 'Write for example "phalaenopsis in bark, pleurothallids in moss".';

/** A medium without a programme for these plants. */
export function mediumProblems({ plants, medium }: Grown, catalog: Catalog, where: Where): Problem[] {
  const media = mediaOf(plants, catalog);
  if (medium === null || media.includes(medium)) return [];
  const fix = `Write one of ${media.join(', ')}.`;
  return [problem('medium-not-grown', where, `${plants} in ${medium}`, `a medium that ${plants} are grown in`, fix)];
}

/** The media that there are programmes for. */
export const mediaOf = (plants: string, catalog: Catalog): readonly Medium[] =>
  catalog.plants.find(({ id }) => id === plants)!.media;
