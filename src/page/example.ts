import bench from '../../examples/moss-without-ammonium/bench.yaml';
import shelf from '../../examples/moss-without-ammonium/shelf.csv';
import type { BenchTexts } from './state.js';

/** What a first visit shows: an invented bench that works. */
export const EXAMPLE: BenchTexts = { 'bench.yaml': bench, 'shelf.csv': shelf };

/** What a bench of one's own begins with: one feed to be changed, and an empty shelf. */
export const OWN: BenchTexts = {
  'bench.yaml': `name: My bench
water: { use: rain }
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp] }
pen: EC
feeds:
  my plants:
    plants: phalaenopsis
    medium: bark
    phase: growth
    strength: 75 %
    batch: 2 L
`,
  'shelf.csv': 'id,name,form\n',
};
