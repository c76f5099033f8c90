import type { Case } from './say.js';

/** Shelves and the files of the catalog. */
export const SHELF_CASES: readonly Case[] = [
  [
    'shelf',
    'id,form,K2O,Cl\na,powder,20,1e-308 %\n',
    [
      'percent: shelf.csv:2 (Cl): found 1e-308 %; expected a percentage, 0 or from 0.000001 to 100. Copy the figure of the label; leave the cell empty where the label is silent.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,pack\na,powder,20,250 mL\n',
    ['amount-kind: shelf.csv:2 (pack): found "250 mL" of a powder; expected a weight. Weigh it and write g.'],
  ],
  [
    'shelf',
    'id,form,basis,K2O,max_rate\na,liquid,w/v,20,2 g/L\n',
    [
      'amount-kind: shelf.csv:2 (max_rate): found "2 g/L" of a liquid; expected a volume per volume, or a weight with the density given. Write mL/L, or fill in density (g/mL).',
    ],
  ],
  [
    'bands',
    'plants,nutrient,min,aim,max\n*,Fe,3,1,2\n',
    ['band-crossed: catalog/bands.csv:2: found 3, 1, 2; expected min ≤ aim ≤ max. Put them in order.'],
  ],
  [
    'bands',
    'plants,nutrient,min,aim,max\n*,Fe,,,\n',
    [
      'band-empty: catalog/bands.csv:2: found no min, aim or max; expected at least one of them. Fill one in, or take the row out.',
    ],
  ],
  [
    'bands',
    'plants,nutrient,min,aim,max\n*,*,1,2,3\n',
    [
      'band-nutrient: catalog/bands.csv:2 (nutrient): found "*"; expected one nutrient. Give each nutrient its own row.',
    ],
  ],
  [
    'plants',
    'id,name,synonyms,media\na,A,violet,bark\nb,B,Violet,bark\n',
    [
      'name-shared: catalog/plants.csv:3: found "Violet" for both a and b; expected each name for one row. Take it out of one of them.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,density\na,powder,20,1.2\n',
    [
      'not-used: shelf.csv:2 (density): found the density of a powder; expected density for liquids, bulk_density for powders. Not used; a level spoon needs bulk_density.',
    ],
  ],
  [
    'shelf',
    'id,form,basis,K2O,bulk_density\na,liquid,w/v,20,1.2\n',
    [
      'not-used: shelf.csv:2 (bulk_density): found the bulk density of a liquid; expected density for liquids, bulk_density for powders. Not used; grams of a liquid need density.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,pack\na,powder,20,0 g\n',
    [
      'pack-zero: shelf.csv:2 (pack): found "0 g"; expected a pack that holds something. Write what is printed on the pack.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,price\na,powder,20,5\n',
    [
      'price-without-pack: shelf.csv:2 (pack): found a price and no pack; expected the size of the pack it buys. Fill in pack; until then the cost counts as unknown.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,pack,price\na,powder,20,1 kg,0\n',
    [
      'price-zero: shelf.csv:2 (price): found "0"; expected the price of a pack. 0 means free; leave the cell empty where it is not known.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,max_rate\na,powder,20,0 g/L\n',
    [
      'rate-zero: shelf.csv:2 (max_rate): found "0 g/L"; expected a rate above zero. Take the product out of the file where it is not to be used.',
    ],
  ],
  [
    'media',
    'id\nsphagnum\nbark\n',
    [
      'row-missing: catalog/media.csv: found no row for coir, peat, clay, mounted; expected a row for each of sphagnum, bark, coir, peat, clay, mounted. Add the missing rows.',
    ],
  ],
  [
    'bands',
    'plants,nutrient,min,aim,max\n*,Fe,1,2,3\n*,Fe,1,2,4\n',
    [
      'row-twice: catalog/bands.csv:3: found *, Fe again, first on line 2; expected one row for it. Keep the one you mean.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,evidence\na,powder,20,handbook\n',
    [
      'source-missing: shelf.csv:2 (source): found evidence "handbook" without a source; expected the trial or handbook by name. Name it in source.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,on_hand\na,powder,20,450\n',
    [
      'amount: shelf.csv:2 (on_hand): found "450" without a unit; expected a number and a unit. Add the unit, for example 450 g or 450 mL.',
    ],
  ],
];
