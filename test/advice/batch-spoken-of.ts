import type { BatchSpokenOf } from '../../src/advice/slips/types.js';

type Spoken = BatchSpokenOf['items'][number];
const holds = (mg: Record<string, number>) => ({
  content: Object.fromEntries(Object.entries(mg).map(([id, x]) => [id, { low: x, stated: x, high: x }])),
  open: [],
});
const powder = (id: string, name: string, planned: number, bulkDensity: number, mg: Record<string, number>): Spoken =>
  ({
    product: { id, name, form: 'powder', bulkDensity, composition: { per: 'g', ...holds(mg) } },
    planned,
    bySpoon: true,
    full: 0.9,
  }) as unknown as Spoken;

/** The batch of the sentences. */
export const SPOKEN_OF: BatchSpokenOf = {
  items: [
    powder('part-c', 'Part C Calcium Powder', 2.4, 1, { Ca: 190, 'NO3-N': 155 }),
    powder('base', 'Base Powder B', 1.2, 0.8, { K: 200, P: 50, 'NO3-N': 100, Fe: 1 }),
    {
      product: { id: 'kelp', name: 'Kelp Liquid', form: 'liquid', composition: { per: 'mL', ...holds({ K: 20 }) } },
      planned: 3,
      bySpoon: false,
      full: 0.9,
    } as unknown as Spoken,
    powder('magnesium-sulfate', 'Magnesium sulfate heptahydrate (Epsom salt)', 0.6, 0.9, { Mg: 98, S: 130 }),
  ],
  litres: 4,
  brimLitres: null,
  waters: ['rain'],
  knownWaters: [
    { id: 'rain', names: ['Rain water', 'rain'], onBench: true },
    { id: 'reverse-osmosis', names: ['Reverse osmosis water', 'RO'], onBench: true },
    { id: 'median-tap', names: ['Median tap water', 'tap', 'tap water'], onBench: false },
  ],
};
