import { type Catalog, findMedium, findPhase, findPlants } from '../catalog/catalog.js';
import { PHASES } from '../programme/programme.js';
import { resolveProgramme } from '../programme/resolve.js';
import { type ProgrammeList, programmesSheet } from '../report/programmes.js';
import { problem } from '../problem.js';
import { Collected } from './collect.js';
import type { Given, Outcome } from './command.js';

/** The programmes of the catalog, narrowed by --plants, --medium and --phase. */
export function listProgrammes(given: Given, catalog: Catalog): Outcome {
  const collected = new Collected();
  const wanted = {
    plants: collected.option(given, 'plants', (text) => findPlants(catalog, text, { field: '--plants' })),
    medium: collected.option(given, 'medium', (text) => findMedium(catalog, text, { field: '--medium' })),
    phase: collected.option(given, 'phase', (text) => findPhase(catalog, text, { field: '--phase' })),
  };
  for (const name of given.named()) {
    if (NARROWING.has(name)) continue;
    collected.add(
      problem(
        'not-with-programmes',
        { field: `--${name}` },
        `--${name} with --programmes`,
        '--plants, --medium or --phase beside --programmes',
        `Leave out --${name}.`,
      ),
    );
  }
  collected.settle();
  // a full name shows one programme: growth, unless another phase is asked for
  const phases = wanted.phase ? [wanted.phase] : wanted.plants && wanted.medium ? (['growth'] as const) : PHASES;
  const groups = catalog.plants.filter((row) => wanted.plants === undefined || row.id === wanted.plants);
  const programmes = groups.flatMap((row) => {
    // one that is asked for by name is refused, with the media that suit, where it makes no sense
    const media =
      wanted.medium === undefined
        ? row.media
        : wanted.plants
          ? [wanted.medium]
          : row.media.filter((m) => m === wanted.medium);
    return media.flatMap((m) =>
      phases.flatMap((p) => collected.take(resolveProgramme(catalog, row.id, m, p, {})) ?? []),
    );
  });
  const warnings = collected.settle();
  const json: ProgrammeList = { schema: 'velamen.programmes/1', status: 'listed', programmes };
  return { exit: 0, json, sheets: [programmesSheet(programmes)], warnings };
}

const NARROWING: ReadonlySet<string> = new Set(['programmes', 'plants', 'medium', 'phase', 'json', 'csv', 'html']);
