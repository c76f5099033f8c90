/** US teaspoon in mL, US and imperial gallon in L (exact by definition). */
export const TSP = 4.92892159375;
export const US_GAL = 3.785411784;
export const UK_GAL = 4.54609;

/** g/mL of the powders named here, as the shelf of the example and the catalog tell. */
export const BULK = { epsom: 0.95, kno3: 1.15, mkp: 1.15, balanced: 0.9, base: 1.05, calcium: 0.95, calciumNitrate: 1 };

/**
 * What a sentence means: g or mL a litre of each product; advice by what its first reading counts and wants (mg/L, mS/cm); or that it is asked
 * back, with words that the question must hold.
 */
export type Meaning =
  | { recipe: Record<string, number> }
  | {
      advice: 'N' | 'P' | 'K' | 'Ca' | 'EC' | null;
      wanted?: [number, number];
      readings?: number;
      atMost?: boolean;
      own?: string;
    }
  | { asked: RegExp[] };

const e = BULK.epsom;
const GALLON = [/US gal/, /imperial gal/];
const WATER = [/how much water/];

/** Sentences as growers of many habits write them, set down before the reader was built. */
export const SENTENCES: readonly (readonly [string, Meaning])[] = [
  ['1 teaspoon Epsom salt per gallon', { asked: [...GALLON, /1\.2\d g\/L/, /1\.03 g\/L/] }],
  ['1 teaspoon Epsom salt per US gallon', { recipe: { 'magnesium-sulfate': (TSP * e) / US_GAL } }],
  ['half a teaspoon of Epsom salt per US gallon', { recipe: { 'magnesium-sulfate': (TSP * e) / 2 / US_GAL } }],
  [
    'a quarter teaspoon Epsom salts to a US gallon of water',
    { recipe: { 'magnesium-sulfate': (TSP * e) / 4 / US_GAL } },
  ],
  ['one teaspoon of epsom salts in 1 US gallon, once a month', { recipe: { 'magnesium-sulfate': (TSP * e) / US_GAL } }],
  [
    'three quarters of a teaspoon Epsom salt per US gallon',
    { recipe: { 'magnesium-sulfate': (0.75 * TSP * e) / US_GAL } },
  ],
  ['one and a half teaspoons of Epsom salt per 5 litres', { recipe: { 'magnesium-sulfate': (1.5 * TSP * e) / 5 } }],
  ['a level teaspoon of Epsom salt in 4 L', { recipe: { 'magnesium-sulfate': (TSP * e) / 4 } }],
  ['a heaped teaspoon of Epsom salt in 4 L', { asked: [/level spoon/] }],
  ['1 heaping tsp Epsom salt per US gallon', { asked: [/level spoon/] }],
  ['one capful of sample kelp liquid per litre', { asked: [/size of the cap/] }],
  ['1 scoop sample base in 5 L', { asked: [/size of the scoop/] }],
  ['1 g/L calcium nitrate + 0.5 g/L Epsom salt', { recipe: { 'calcium-nitrate': 1, 'magnesium-sulfate': 0.5 } }],
  ['1 g/L calcium nitrate and 0.5 g/L Epsom salt', { recipe: { 'calcium-nitrate': 1, 'magnesium-sulfate': 0.5 } }],
  ['calcium nitrate 1 g/L, Epsom salt 0.5 g/L', { recipe: { 'calcium-nitrate': 1, 'magnesium-sulfate': 0.5 } }],
  [
    'calcium nitrate at 1 g/L and Epsom salt at 0.5 g/L',
    { recipe: { 'calcium-nitrate': 1, 'magnesium-sulfate': 0.5 } },
  ],
  [
    '1 gram calcium nitrate, 0.5 grams Epsom salt per litre',
    { recipe: { 'calcium-nitrate': 1, 'magnesium-sulfate': 0.5 } },
  ],
  [
    'per litre: 1 g calcium nitrate, 0.5 g Epsom salt and 0.2 g MKP',
    { recipe: { 'calcium-nitrate': 1, 'magnesium-sulfate': 0.5, 'monopotassium-phosphate': 0.2 } },
  ],
  [
    'For each litre of rainwater I use 0.3 g potassium nitrate and 0.1 g of monopotassium phosphate',
    { recipe: { 'potassium-nitrate': 0.3, 'monopotassium-phosphate': 0.1 } },
  ],
  [
    'dissolve 1.2 g sample base and 1 g sample calcium in 4 litres of rain water',
    { recipe: { 'sample-base': 0.3, 'sample-calcium': 0.25 } },
  ],
  [
    'In 4 litres of RO water dissolve 1 g sample calcium, then 1.2 g sample base',
    { recipe: { 'sample-base': 0.3, 'sample-calcium': 0.25 } },
  ],
  ['5 mL cal-mag per US gallon', { recipe: { 'sample-calcium-magnesium': 5 / US_GAL } }],
  ['5 ml of cal mag per US gal of RO water', { recipe: { 'sample-calcium-magnesium': 5 / US_GAL } }],
  ['5 mL cal-mag per gallon of RO water', { asked: [...GALLON, /1\.32 mL\/L/, /1\.1 mL\/L/] }],
  ['2 ml/l kelp weekly', { recipe: { 'sample-kelp': 2 } }],
  ['2 ml per litre of kelp, every other watering', { recipe: { 'sample-kelp': 2 } }],
  ['kelp: 2 mL per litre', { recipe: { 'sample-kelp': 2 } }],
  ['two grams of potassium nitrate to ten litres', { recipe: { 'potassium-nitrate': 0.2 } }],
  ['Add 1/4 tsp of KNO3 to each 2 L, weekly', { recipe: { 'potassium-nitrate': (TSP * BULK.kno3) / 8 } }],
  [
    '1/2 tsp/US gal Epsom salt + 1/4 tsp/US gal calcium nitrate',
    { recipe: { 'magnesium-sulfate': (TSP * e) / 2 / US_GAL, 'calcium-nitrate': TSP / 4 / US_GAL } },
  ],
  [
    '½ tsp Epsom salt & ¼ tsp calcium nitrate per US gallon',
    { recipe: { 'magnesium-sulfate': (TSP * e) / 2 / US_GAL, 'calcium-nitrate': TSP / 4 / US_GAL } },
  ],
  [
    '1 tsp Epsom salt per US gallon and 1 g calcium nitrate per litre',
    { recipe: { 'magnesium-sulfate': (TSP * e) / US_GAL, 'calcium-nitrate': 1 } },
  ],
  ['a tablespoon of Epsom salt in 10 litres', { recipe: { 'magnesium-sulfate': (3 * TSP * e) / 10 } }],
  ['1 g/L calcium nitrate + 0.5 g Epsom salt', { asked: WATER }],
  ['1 teaspoon of Epsom salt', { asked: WATER }],
  ['a teaspoon of Epsom salt every week', { asked: WATER }],
  ['1 tsp Epsom salt per quart', { asked: [/US qt/, /imperial qt/] }],
  ['1 tsp of foobar dust per litre', { asked: [/foobar dust/] }],
  ['1 tsp (5 g) Epsom salt per litre', { asked: [/one amount/] }],
  ['1-2 g Epsom salt per litre', { asked: [/one amount, not a range/] }],
  ['some Epsom salt per litre', { asked: [/amount/] }],
  ['0.5 g/L of Epsom salt, twice a month, in spring', { recipe: { 'magnesium-sulfate': 0.5 } }],
  [
    'my mix is 1 g sample base and 0.8 g sample calcium per 3 litres',
    { recipe: { 'sample-base': 1 / 3, 'sample-calcium': 0.8 / 3 } },
  ],
  ['600 microsiemens', { advice: 'EC', wanted: [0.6, 0.6] }],
  ['keep it under 600 microsiemens', { advice: 'EC', wanted: [0.6, 0.6], atMost: true }],
  ['feed at 600 microsiemens per cm', { advice: 'EC', wanted: [0.6, 0.6] }],
  ['keep TDS below 100 ppm', { advice: 'EC', wanted: [0.2, 0.2], readings: 3, atMost: true }],
  ['don’t go over 0.8 mS', { advice: 'EC', wanted: [0.8, 0.8], atMost: true }],
  ['aim for an EC of 0.5 to 0.7', { advice: 'EC', wanted: [0.5, 0.7] }],
  ['I run them at about 100 ppm nitrogen every watering', { advice: 'N', wanted: [100, 100] }],
  ['100 ppm N, weekly', { advice: 'N', wanted: [100, 100] }],
  ['quarter strength', { asked: [/quarter|share/, /label/] }],
  ['quarter strength, weekly', { asked: [/label/] }],
  ['weakly, weekly', { asked: [/how weak/, /quarter strength/] }],
  ['Feed weakly, weekly!', { asked: [/how weak/] }],
  ['20-20-20 at quarter strength', { advice: 'N', own: 'sample-balanced', wanted: [50, 50] }],
  ['quarter strength 20-20-20 every week', { advice: 'N', own: 'sample-balanced', wanted: [50, 50] }],
  ['a quarter of the label rate of 20-20-20', { advice: 'N', own: 'sample-balanced', wanted: [50, 50] }],
  ['1 g/L of 20-20-20', { advice: 'N', own: 'sample-balanced', wanted: [200, 200] }],
  [
    'half a teaspoon of 20-20-20 per US gallon',
    {
      advice: 'N',
      own: 'sample-balanced',
      wanted: [(0.2 * 1000 * TSP * BULK.balanced) / 2 / US_GAL, (0.2 * 1000 * TSP * BULK.balanced) / 2 / US_GAL],
    },
  ],
  ['1/4 tsp 20-20-20 per gallon of RO water', { advice: 'N', own: 'sample-balanced', readings: 4 }],
  ['1 tsp per gallon of 15-5-25', { advice: 'N', readings: 2 }],
  ['half strength 15-5-25', { advice: 'N', readings: 3 }],
  ['a pinch of Epsom salt per litre', { recipe: { 'magnesium-sulfate': (TSP / 16) * e } }],
  ['1 ml of fish emulsion in a litre of distilled water', { recipe: { 'sample-fish': 1 } }],
  [
    '0.25 g sample balanced powder 20-20-20 and 0.1 g Epsom salt per litre',
    { recipe: { 'sample-balanced': 0.25, 'magnesium-sulfate': 0.1 } },
  ],
  ['0.25 g 20-20-20 and 0.1 g Epsom salt per litre', { recipe: { 'sample-balanced': 0.25, 'magnesium-sulfate': 0.1 } }],
  // set down after the reader was built, from a second list of eighty that was tried on it
  ['1tsp epsom/US gal', { recipe: { 'magnesium-sulfate': (TSP * e) / US_GAL } }],
  [
    'mix 5ml per liter cal-mag with 2 ml per liter kelp',
    { recipe: { 'sample-calcium-magnesium': 5, 'sample-kelp': 2 } },
  ],
  [
    'one teaspoon each of Epsom salt and calcium nitrate per US gallon',
    { recipe: { 'magnesium-sulfate': (TSP * e) / US_GAL, 'calcium-nitrate': TSP / US_GAL } },
  ],
  ['2 ml kelp/liter & 1g Epsom/liter', { recipe: { 'sample-kelp': 2, 'magnesium-sulfate': 1 } }],
  ['Give 250 mL of water with 0.1 g Epsom salt', { recipe: { 'magnesium-sulfate': 0.4 } }],
  ['12 g base in the 20 L barrel', { recipe: { 'sample-base': 0.6 } }],
  ['do not use more than 1 g of Epsom salt per litre', { asked: [/not a bound/] }],
  ['up to 1 g/L Epsom salt', { asked: [/not a bound/] }],
  ['1 cap of kelp per litre', { asked: [/size of the cap/] }],
  ['¼ tsp per gallon of 20-20-20 plus ¼ tsp per gallon of epsom salt', { asked: [...GALLON, /sample-balanced/] }],
  [
    'to 10 L RO add 6 g calcium nitrate, stir, then add 3 g Epsom salt',
    { recipe: { 'calcium-nitrate': 0.6, 'magnesium-sulfate': 0.3 } },
  ],
  ['fertilize with 1 g per litre', { asked: [/of which product/] }],
  [
    '1 tsp Epsom salt per imperial gallon, 1 ml/L kelp',
    { recipe: { 'magnesium-sulfate': (TSP * e) / UK_GAL, 'sample-kelp': 1 } },
  ],
  ['1 g KNO3 per litre at quarter strength', { asked: [/potassium-nitrate/, /0\.25 g/] }],
  ['aim for 150 ppm total', { asked: [/total/] }],
  ['0.25 g 15-5-25 and 0.1 g Epsom salt per litre', { asked: [/15-5-25/] }],
  // set down after a third list, tried on a shelf of another bench
  ['5 mL cal-mag per US gallon of RO water weekly, quarter strength', { asked: [/quarter strength/, /1\.25 mL/] }],
  ['I use half strength kelp at every other watering', { asked: [/half strength/, /label/] }],
  ['1:200 cal-mag', { asked: [/5 mL\/L of sample-calcium-magnesium/] }],
  ['mix 1 part cal-mag with 200 parts water', { asked: [/5 mL\/L/] }],
  ['0.05 % Epsom salt', { asked: [/0\.5 g\/L of magnesium-sulfate/] }],
  [
    'half tsp epsom, half tsp calcium nitrate, one US gallon',
    { recipe: { 'magnesium-sulfate': (TSP * e) / 2 / US_GAL, 'calcium-nitrate': TSP / 2 / US_GAL } },
  ],
  ['epsom 1g, calcium nitrate 1g, water 2 l', { recipe: { 'magnesium-sulfate': 0.5, 'calcium-nitrate': 0.5 } }],
  ['fill 10 L, add 5 g sample base', { recipe: { 'sample-base': 0.5 } }],
  ['1 tsp. epsom salts / 1 gal. water', { asked: GALLON }],
  ['a pinch of epsom salt in the watering can', { asked: WATER }],
  ['EC no higher than 0.8', { advice: 'EC', wanted: [0.8, 0.8], atMost: true }],
  ['0.6 mS please', { advice: 'EC', wanted: [0.6, 0.6] }],
  ['keep it under 500 µS', { advice: 'EC', wanted: [0.5, 0.5], atMost: true }],
  ['30-10-10 half strength in summer', { advice: 'N', readings: 3 }],
  ['250 mg/L sample base', { recipe: { 'sample-base': 0.25 } }],
  [
    '250 mg/L of Epsom salt and 100 mg/l calcium nitrate',
    { recipe: { 'magnesium-sulfate': 0.25, 'calcium-nitrate': 0.1 } },
  ],
  ['100 mg/L N', { advice: 'N', wanted: [100, 100] }],
  ['between 400 and 600 microsiemens', { advice: 'EC', wanted: [0.4, 0.6] }],
  ['I’d like 0.5 EC', { advice: 'EC', wanted: [0.5, 0.5] }],
];
