import type { BenchFiles } from '../../src/desk/bench-files.js';

/** Three shelves of our own invention, as a grower would write them; salts by chemical name, labels made up. */
export const SHELVES = {
  'plain salts': `id,name,form,formula,N,Fe,Mn,Zn,Cu,B,Mo,density,derived_from
lime-nitrate,Calcium nitrate,powder,Ca(NO3)2·4H2O,,,,,,,,,
saltpetre,Potassium nitrate,powder,KNO3,,,,,,,,,
mkp,Monopotassium phosphate,powder,KH2PO4,,,,,,,,,
epsom,Epsom salt,powder,MgSO4·7H2O,,,,,,,,,
sulfate-of-ammonia,Ammonium sulfate,powder,(NH4)2SO4,,,,,,,,,
trace,Trace liquid,liquid,,0,0.16,0.06,0.022,0.007,0.022,0.002,1.02,iron DTPA; manganese EDTA; zinc EDTA; copper EDTA; boric acid; sodium molybdate
`,
  'two parts': `id,name,form,N,NO3-N,NH4-N,urea-N,P2O5,K2O,Ca,Mg,S,Fe,Mn,Zn,Cu,B,Mo,derived_from
part-b,Base part,powder,6.2,6.2,0,0,9,27,,2.9,4.2,0.25,0.09,0.03,0.011,0.03,0.003,potassium nitrate; monopotassium phosphate; magnesium sulfate; potassium sulfate; iron EDTA; manganese EDTA; zinc EDTA; copper EDTA; boric acid; sodium molybdate
part-a,Calcium part,powder,12,12,0,0,,,14,1.5,,,,,,,,calcium nitrate; magnesium nitrate
bitter-salt,Magnesium sulfate,powder,0,,,,,,,9.6,12.7,,,,,,,magnesium sulfate
`,
  'urea and much potassium': `id,name,form,formula,N,NO3-N,NH4-N,urea-N,P2O5,K2O,Mg,S,Fe,Mn,Zn,Cu,B,Mo,derived_from
cheap,Balanced powder,powder,,19,5.5,3.5,10,19,19,,,0.1,0.05,0.045,0.02,0.02,0.001,monoammonium phosphate; potassium nitrate; urea; iron EDTA; manganese sulfate; zinc sulfate; copper sulfate; boric acid; sodium molybdate
saltpetre,Potassium nitrate,powder,KNO3,,,,,,,,,,,,,,,
lime-nitrate,Calcium nitrate,powder,Ca(NO3)2·4H2O,,,,,,,,,,,,,,,
epsom,Epsom salt,powder,MgSO4·7H2O,,,,,,,,,,,,,,,
iron,Iron chelate,powder,,0,,,,,,,,9,,,,,,iron DTPA
manganese,Manganese sulfate,powder,MnSO4·H2O,,,,,,,,,,,,,,,
`,
} as const;

export type ShelfName = keyof typeof SHELVES;

/** What is asked: a group in a medium and phase, at full strength in rain water. */
export interface Case {
  plants: string;
  medium: string;
  phase: string;
  shelf: ShelfName;
}

const on = (shelf: ShelfName, ...cases: [string, string, string][]): Case[] =>
  cases.map(([plants, medium, phase]) => ({ plants, medium, phase, shelf }));

export const CASES: readonly Case[] = [
  ...on(
    'plain salts',
    ['phalaenopsis', 'bark', 'growth'],
    ['phalaenopsis', 'sphagnum', 'bloom'],
    ['cattleya', 'clay', 'growth'],
    ['vanda', 'mounted', 'growth'],
    ['african-violet', 'peat', 'bloom'],
  ),
  ...on(
    'two parts',
    ['pleurothallid', 'sphagnum', 'growth'],
    ['paphiopedilum', 'bark', 'growth'],
    ['oncidium', 'bark', 'rest'],
    ['aroid', 'peat', 'growth'],
    ['hoya', 'coir', 'growth'],
  ),
  ...on(
    'urea and much potassium',
    ['cymbidium', 'bark', 'growth'],
    ['dendrobium', 'bark', 'bloom'],
    ['cattleya', 'bark', 'growth'],
    ['cattleya', 'bark', 'rest'],
    ['fern', 'peat', 'growth'],
  ),
];

/** The texts that the desk reads for a case. */
export const filesOf = ({ plants, medium, phase, shelf }: Case): BenchFiles => ({
  bench: {
    name: 'bench.yaml',
    text: `name: Nutrition\nwater: { use: rain }\nkit: { scale: 0.01 g, syringe: 1 mL }\nfeeds:\n  feed:\n    plants: ${plants}\n    medium: ${medium}\n    phase: ${phase}\n    batch: 10 L\n`,
  },
  shelf: { name: 'shelf.csv', text: SHELVES[shelf] },
});
