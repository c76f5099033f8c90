import { checkPenWithStandard } from '../check-pen.js';
import { benchAndShelf } from '../opened.js';
import { scaleOf } from '../options/pen.js';
import type { Draft } from '../../year/journal/entry.js';
import type { EntryAsked } from './entry-asked.js';

/** The pen in its standard: what it shows beside what it should, as it stands, without a factor. */
export function standardEntry({ files, wishes, catalog, collected, begun }: EntryAsked): Draft {
  const { bench } = benchAndShelf(files, wishes, catalog, collected, false);
  const scale = scaleOf(bench?.pen);
  const own = wishes.scale === undefined && scale !== null ? { ...wishes, scale: String(scale) } : wishes;
  const { result } = checkPenWithStandard({ ...own, penFactor: undefined } as typeof wishes, collected.problems);
  const { reads, shouldRead, scale: ppm, temperatureC, standard } = result;
  const unit = ppm ?? 1;
  const draft = begun('standard');
  return {
    ...draft,
    reading: reads / unit,
    expected: shouldRead / unit,
    temperature: temperatureC,
    note: draft.note || `standard of ${standard} mS/cm`,
  };
}
