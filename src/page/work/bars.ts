import type { ElementLine } from '../../feed/results.js';
import { type Laid, lay, standing, type Standing } from '../../report/band.js';
import { figure } from '../../report/figures.js';
import { openWords } from '../../report/html.js';
import type { Bar } from '../../report/sheet.js';
import { type Mixed, type SumLine, sumOf } from './sums.js';

/** An element against its band: finished figures as every report has them, where they lie along the band, and the sum behind them. */
export interface BarView {
  name: string;
  mix: string;
  least: string;
  aim: string;
  most: string;
  standing: Standing;
  /** How high it may really be, where no band judges that. */
  open: string;
  laid: Laid | null;
  sum: SumLine[];
}

/** Of elements that are neither wanted nor present nothing is shown. */
export const barViews = (elements: readonly ElementLine[], mixed: Mixed | null): BarView[] =>
  elements
    .filter((e) => e.min !== null || e.aim !== null || e.max !== null || e.high > 0)
    .map(({ element, mgPerLitre, low, high, min, aim, max }) =>
      barView({ name: element, value: mgPerLitre, low, high, min, aim, max }, mixed ? sumOf(element, mixed) : []),
    );

export const barView = (bar: Bar, sum: SumLine[] = []): BarView => ({
  name: bar.name,
  mix: figure(bar.value),
  least: bar.min === null ? '' : figure(bar.min),
  aim: bar.aim === null ? '' : figure(bar.aim),
  most: bar.max === null ? '' : figure(bar.max),
  standing: standing(bar),
  open: standing(bar) === '' ? openWords(bar) : '',
  laid: lay(bar),
  sum,
});
