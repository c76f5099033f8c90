import { A_CATALOG, type Catalog } from '../catalog/catalog.js';
import { PHASES, type Programme } from '../programme/programme.js';
import { resolveProgramme } from '../programme/resolve.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { Collected } from './collected.js';
import { refuseUnlike } from '../wrong-type.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/**
 * The programmes of the catalog (limits and aims in mg/L, rules, evidence), narrowed by `plants`, `medium` and `phase`; the benches' files
 * have no say. @throws Refusal for a name that is unknown, or a medium that makes no sense for the plants
 */
export function programmesOf(
  files: Pick<BenchFiles, 'problems'>,
  wishes: Pick<Wishes, 'plants' | 'medium' | 'phase'>,
  catalog: Catalog = shippedCatalog(),
): Answer<Programme[]> {
  refuseUnlike({ files, wishes, catalog }, { files: 'object', wishes: 'object', catalog: A_CATALOG });
  const collected = new Collected(files.problems);
  const wanted = {
    plants: collected.wish(wishes, 'plants', { catalog }),
    medium: collected.wish(wishes, 'medium', { catalog }),
    phase: collected.wish(wishes, 'phase', { catalog }),
  };
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
  return { met: true, result: programmes, warnings };
}
