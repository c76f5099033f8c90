import { figure } from '../../report/figures.js';
import type { Chart } from '../../report/sheet.js';

/** A chart whose figures are finished text beside the values that place them. */
export type ChartView = Omit<Chart, 'series'> & { series: (Chart['series'][number] & { figures: string[] })[] };

export const chartView = (chart: Chart): ChartView => ({
  ...chart,
  series: chart.series.map((one) => ({ ...one, figures: one.values.map(figure) })),
});
