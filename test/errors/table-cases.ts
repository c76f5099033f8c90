import type { Case } from './say.js';

/** The form of a CSV file and its cells. */
export const TABLE_CASES: readonly Case[] = [
  [
    'shelf',
    'id,form,K2O\n,powder,20\n',
    ['cell-empty: shelf.csv:2 (id): found an empty cell; expected a value for id. Fill in id.'],
  ],
  [
    'shelf',
    'id,form,K2O\na,powdre,20\n',
    ['choice: shelf.csv:2 (form): found "powdre"; expected powder or liquid. Did you mean powder?'],
  ],
  [
    'shelf',
    'id,K2O\na,20\n',
    [
      'column-missing: shelf.csv:1: found no column form; expected a column form. Add form to the first line and fill it in.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,soluble potash\na,powder,20,20\n',
    [
      'column-twice: shelf.csv:1 (soluble potash): found "soluble potash" beside "K2O"; expected one column for K2O. Keep the one you mean.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O (g/kg)\na,powder,200\n',
    [
      'column-unit: shelf.csv:1 (K2O (g/kg)): found the unit "g/kg"; expected K2O in %. Convert the numbers to %.',
      'number-range: shelf.csv:2 (K2O): found "200"; expected a number in % from 0 to 100. Check the number, its decimal point and its unit.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,bulk_densty\na,powder,20,1.1\n',
    [
      'column-unknown: shelf.csv:1 (bulk_densty): found column "bulk_densty"; expected a column this file can have. Did you mean bulk_density? Otherwise put it in notes.',
    ],
  ],
  [
    'waters',
    'id,HCO3\nwell,120\n',
    [
      'column-unknown: catalog/waters.csv:1 (HCO3): found column "HCO3"; expected a column this file can have. Write it as alkalinity (mg/L CaCO3 = bicarbonate × 0.820).',
    ],
  ],
  [
    'shelf',
    'id,form,,K2O\na,powder,x,20\n',
    [
      'column-unnamed: shelf.csv:1: found column 3 without a name; expected a name over every column with values. Name it, or take it out.',
    ],
  ],
  [
    'shelf',
    'id;form;K2O\na;powder;20\n',
    [
      'csv-delimiter: shelf.csv:1: found semicolons between the cells; expected commas. Read with semicolons; nothing to do if the columns are right.',
    ],
  ],
  [
    'shelf',
    '\n# nothing yet\n',
    [
      'csv-empty: shelf.csv: found an empty file; expected a header line and rows under it. Begin with a line that names the columns.',
    ],
  ],
  [
    'shelf',
    'potassium nitrate,13,46\n',
    [
      'csv-no-header: shelf.csv:1: found "potassium nitrate,13,46"; expected a header line such as id,name,form,basis,…. Let the first line name the columns.',
    ],
  ],
  [
    'shelf',
    'id|form|K2O\na|powder|20\n',
    [
      'csv-no-header: shelf.csv:1: found "id|form|K2O"; expected a header line such as id,name,form,basis,…. Put commas between the columns.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\n',
    ['csv-no-rows: shelf.csv:1: found a header and no rows; expected at least one row. Add a row under the header.'],
  ],
  [
    'shelf',
    'id,form,K2O\n"a,powder,20\n',
    [
      'csv-quote: shelf.csv:2: found a quote that never closes in this line: "a,powder,20; expected quotes around whole cells, in pairs. Close the quote; write a quote inside a quoted cell twice ("").',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\na 5" jar,powder,20\n',
    [
      'csv-quote: shelf.csv:2: found a stray quote in this line: a 5" jar,powder,20; expected quotes around whole cells, in pairs. Close the quote; write a quote inside a quoted cell twice ("").',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,price\na,powder,20,12,50\n',
    [
      'csv-ragged: shelf.csv:2: found 5 cells; expected 4 cells, as in the header. Put quotes around a cell that holds a comma, and write decimals with a point (12.5).',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,price\na,powder,20\n',
    [
      'csv-ragged: shelf.csv:2: found 3 cells; expected 4 cells, as in the header. Keep a separator for every empty cell.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\na,powder,"20,5"\n',
    ['decimal-comma: shelf.csv:2 (K2O): found "20,5"; expected a decimal point. Read as 20.5.'],
  ],
  [
    'shelf',
    'id,form,K2O\na,\u0000powder,20\n',
    [
      'file-binary: shelf.csv:2: found bytes that are not text; expected plain text in UTF-8. A spreadsheet must be exported as CSV (UTF-8) first.',
    ],
  ],
  [
    'plants',
    'id,media\n*,bark\n',
    [
      'id-reserved: catalog/plants.csv:2 (id): found id "*"; expected a name. * stands for every group; choose another id.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\na,powder,20\na,powder,21\n',
    [
      'id-twice: shelf.csv:3 (id): found id "a" again, first on line 2; expected each id once, whatever its case. Rename one of them, or take it out.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\na,powder,lots\n',
    [
      'number-expected: shelf.csv:2 (K2O): found "lots"; expected a number in % from 0 to 100. Write a number, or leave the cell empty; is this the right column?',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\na,powder,<0.1\n',
    [
      'number-expected: shelf.csv:2 (K2O): found "<0.1"; expected a number in % from 0 to 100. Leave the cell empty where it is not known.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O\na,powder,20 mg/L\n',
    [
      'number-expected: shelf.csv:2 (K2O): found "20 mg/L"; expected a number in % from 0 to 100. Write the number alone.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,price\na,powder,20,-3\n',
    ['number-negative: shelf.csv:2 (price): found "-3"; expected a number from 0 to 1000000. It cannot be below zero.'],
  ],
  [
    'shelf',
    'id,form,K2O\na,powder,120\n',
    [
      'number-range: shelf.csv:2 (K2O): found "120"; expected a number in % from 0 to 100. Check the number, its decimal point and its unit.',
    ],
  ],
  [
    'shelf',
    'id,form,K2O,price\na,powder,20,"1,500"\n',
    [
      'number-unclear: shelf.csv:2 (price): found "1,500"; expected a number that can be read one way only. Write it without thousands marks, with a point before decimals.',
    ],
  ],
  [
    'solubility',
    'id,formula,at_0,at_10,at_20,at_30\na,KNO,13,,20,2000\n',
    [
      'cell-empty: catalog/solubility.csv:2 (at_10): found an empty cell; expected a value for at_10. Fill in at_10.',
      'number-range: catalog/solubility.csv:2 (at_30): found "2000"; expected a number in g/100 g from 0.01 to 1000. Check the number, its decimal point and its unit.',
    ],
  ],
  [
    'hazards',
    'name,formula,codes,sale,leaf_mg_per_L\nsaltpetre,KNO3,hot; H999,sometimes,K 3\n',
    [
      'hazard-code: catalog/hazards.csv:2 (codes): found "hot"; expected a code of the GHS, such as H302, H314 from 5 % or H290 in liquids. Write it so.',
      'hazard-code: catalog/hazards.csv:2 (codes): found "H999"; expected a code of statements.csv. Add its statement there.',
      'hazard-sale: catalog/hazards.csv:2 (sale): found "sometimes"; expected reportable, or restricted from X %. Write it so, or leave it empty.',
      'hazard-leaf: catalog/hazards.csv:2 (leaf_mg_per_L): found "K 3"; expected Na, Cl, B and mg/L. Write it so: Cl 105.',
    ],
  ],
  [
    'pointing',
    'rule,refs,evidence\nK >= N,,trial\nK >= P,Nobody1900,trial\nK >= S,memory,trial\n',
    [
      'refs-missing: catalog/rules.csv:2 (refs): found a row without a key; expected a key of references.csv. Point to a source, or to memory.',
      'refs-unread: catalog/rules.csv:2 (evidence): found "trial" by memory alone; expected a source that was read. Grade it lower, or cite one.',
      'refs-unknown: catalog/rules.csv:3 (refs): found "Nobody1900"; expected a key of references.csv. Add its citation there.',
      'refs-unread: catalog/rules.csv:4 (evidence): found "trial" by memory alone; expected a source that was read. Grade it lower, or cite one.',
    ],
  ],
  [
    'can-limits',
    'quantity,of,most\nhardness,bark,100\n',
    [
      'unknown-quantity: catalog/can-limits.csv:2 (quantity): found "hardness"; expected alkalinity, chelate, ammonia, keeping. Name one of these.',
    ],
  ],
  // a rest without feed: of everything, with both of its ends or none
  ['factors', 'plants,medium,phase,nutrient,factor,from,to\nphal,*,rest,*,0,leaves fall,roots grow\n', []],
  ['factors', 'plants,medium,phase,nutrient,factor\nphal,*,rest,*,0\n', []],
  [
    'factors',
    'plants,medium,phase,nutrient,factor\n*,*,rest,N,0\n',
    [
      'factor-zero: catalog/factors.csv:2 (factor): found a factor of 0; expected nutrient *; from and to, when to stop feeding and when to go on, or neither for all the year. Fill in from and to.',
    ],
  ],
  [
    'factors',
    'plants,medium,phase,nutrient,factor,from,to\n*,*,rest,*,0,leaves fall,\nphal,moss,rest,*,0,,roots grow\n',
    [
      'factor-zero: catalog/factors.csv:2 (factor): found a factor of 0; expected nutrient *; from and to, when to stop feeding and when to go on, or neither for all the year. Fill in from and to.',
      'factor-zero: catalog/factors.csv:3 (factor): found a factor of 0; expected nutrient *; from and to, when to stop feeding and when to go on, or neither for all the year. Fill in from and to.',
    ],
  ],
  [
    'rests',
    'plants,from,to\nphalaenopsis,13,2\n',
    [
      'number-range: catalog/rests.csv:2 (from): found "13"; expected a number from 1 to 12. Check the number, its decimal point and its unit.',
      'practice-missing: catalog/rests.csv (plants): found no row for *; expected a row whose plants is *. Add it.',
    ],
  ],
  [
    'flushes',
    'medium,every_weeks,pot_volumes\nbark,4,2\n',
    [
      'practice-missing: catalog/flushes.csv (medium): found no row for sphagnum; expected a row whose medium is sphagnum. Add it.',
      'practice-missing: catalog/flushes.csv (medium): found no row for coir; expected a row whose medium is coir. Add it.',
      'practice-missing: catalog/flushes.csv (medium): found no row for peat; expected a row whose medium is peat. Add it.',
      'practice-missing: catalog/flushes.csv (medium): found no row for clay; expected a row whose medium is clay. Add it.',
      'practice-missing: catalog/flushes.csv (medium): found no row for mounted; expected a row whose medium is mounted. Add it.',
    ],
  ],
];
