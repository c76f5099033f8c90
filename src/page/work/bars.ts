import type { ElementLine } from '../../feed/results.js';
import { type Laid, lay, standing, type Standing } from '../../report/band.js';
import { figure } from '../../report/figures.js';
import { elementBar } from '../../report/mix.js';
import type { Bar } from '../../report/sheet.js';

/** An element against its band: finished figures as every report has them, and where they lie along the band. */
export interface BarView {
  name: string;
  mix: string;
  least: string;
  aim: string;
  most: string;
  standing: Standing;
  laid: Laid | null;
}

/** Of elements that are neither wanted nor present nothing is shown. */
export const barViews = (elements: readonly ElementLine[]): BarView[] =>
  elements
    .filter((e) => e.min !== null || e.aim !== null || e.max !== null || e.high > 0)
    .map((e) => barView(elementBar(e)));

export const barView = (bar: Bar): BarView => ({
  name: bar.name,
  mix: figure(bar.value),
  least: bar.min === null ? '' : figure(bar.min),
  aim: bar.aim === null ? '' : figure(bar.aim),
  most: bar.max === null ? '' : figure(bar.max),
  standing: standing(bar),
  laid: lay(bar),
});
