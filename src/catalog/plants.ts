import { MEDIA, type Medium, PHASES, type Phase } from '../programme/programme.js';
import type { PlantRow } from '../programme/tables.js';
import { type Checked, type Problem, problem, type Where } from '../problem.js';
import { evidenceOf, listCell, requiredCell, uniqueIds } from './cells.js';
import { capped } from './limits.js';
import { findNamed, type Named, sharedNames, unknownName } from './names.js';
import { SOURCE_COLUMNS } from './shared-columns.js';
import { type Row, readTable } from './table.js';

/** A medium or a phase, with the words growers use for it. */
export interface Term<T extends string> extends Named {
  id: T;
  where: Where;
}

/** A plant group with its line. */
export type CatalogPlants = PlantRow & { where: Where };

/** Reads `media.csv`; every medium of the program must be there once. */
export const readMedia = (text: string, file: string): Checked<Term<Medium>[]> =>
  readTerms(text, file, MEDIA, 'a medium');

/** Reads `phases.csv`; every phase of the program must be there once. */
export const readPhases = (text: string, file: string): Checked<Term<Phase>[]> =>
  readTerms(text, file, PHASES, 'a phase');

/** Reads `plants.csv`: groups with their synonyms and the media that suit them, by id or synonym of the medium. */
export function readPlants(text: string, file: string, media: readonly Term<Medium>[]): Checked<CatalogPlants[]> {
  const problems: Problem[] = [];
  const columns = [
    { name: 'id', required: true },
    { name: 'name' },
    { name: 'synonyms' },
    { name: 'media', required: true },
    ...SOURCE_COLUMNS,
  ];
  const plants = readTable(text, file, columns, problems).rows.map((row) => {
    requiredCell(row, 'media', problems);
    const suits = listCell(row, 'media').flatMap((name) => {
      const found = findNamed(name, media, 'a medium', row.where('media'));
      if (!found.ok) problems.push(...found.problems);
      return found.ok ? [found.value.id] : [];
    });
    return {
      ...named(row, problems),
      media: suits,
      refs: listCell(row, 'refs'),
      source: row.text('source') ?? '',
      evidence: evidenceOf(row, problems),
      notes: row.text('notes') ?? '',
    };
  });
  for (const row of plants) {
    if (row.id === '*')
      problems.push(
        problem(
          'id-reserved',
          { ...row.where, field: 'id' },
          'id "*"',
          'a name',
          '* stands for every group; choose another id.',
        ),
      );
  }
  problems.push(...uniqueIds(plants), ...sharedNames(plants));
  return capped(plants, problems);
}

function readTerms<T extends string>(
  text: string,
  file: string,
  known: readonly T[],
  kind: string,
): Checked<Term<T>[]> {
  const problems: Problem[] = [];
  const columns = [{ name: 'id', required: true }, { name: 'name' }, { name: 'synonyms' }, ...SOURCE_COLUMNS];
  const all = known.map((id) => ({ id, name: id, synonyms: [] }));
  const terms = readTable(text, file, columns, problems).rows.flatMap((row) => {
    const { id, ...rest } = named(row, problems);
    const term = known.find((k) => k === id);
    if (term === undefined && id !== '')
      problems.push(unknownName(id, all, `${kind} that the program knows`, row.where('id')));
    evidenceOf(row, problems);
    return term === undefined ? [] : [{ id: term, ...rest }];
  });
  const missing = known.filter((k) => !terms.some((t) => t.id === k));
  if (missing.length > 0 && problems.length === 0) {
    problems.push(
      problem(
        'row-missing',
        { file },
        `no row for ${missing.join(', ')}`,
        `a row for each of ${known.join(', ')}`,
        'Add the missing rows.',
      ),
    );
  }
  problems.push(...uniqueIds(terms), ...sharedNames(terms));
  return capped(terms, problems);
}

function named(row: Row, problems: Problem[]): Named & { where: Where; synonyms: string[] } {
  const id = requiredCell(row, 'id', problems);
  return { id, name: row.text('name') ?? id, synonyms: listCell(row, 'synonyms'), where: row.where() };
}
