/** How a value of bench.yaml is written in its field: as words, as a list with commas between, one item to a line, or `key: words` a line. */
export type Written = 'words' | 'list' | 'lines' | 'pairs';

/** A field of the place of plants for a key of bench.yaml. */
export interface BenchField {
  key: string;
  name: string;
  hint: string;
  written?: Written;
  choices?: readonly { id: string; name: string }[];
}

/** Of a feed, beside its plants, medium and phase. */
export const FEED_FIELDS: readonly BenchField[] = [
  { key: 'strength', name: 'Strength', hint: 'A share such as 80 %, or N 90 mg/L' },
  { key: 'batch', name: 'Mixed at a time', hint: 'Such as 4 L or 1 US gal' },
  { key: 'weekly', name: 'Used in a week', hint: 'Such as 10 L' },
];

/** Of a feed, for the pots it goes to and the months that are not as the season has them. */
export const POT_FIELDS: readonly BenchField[] = [
  { key: 'rules', name: 'Rules of your own, one to a line', hint: 'Such as NH4 <= 0.1 * N', written: 'lines' },
  { key: 'pots', name: 'How many pots', hint: 'Such as 24' },
  { key: 'pot', name: 'What one empty pot holds', hint: 'Such as 0.5 L' },
  { key: 'watering', name: 'One watering of all pots', hint: 'Such as 6 L' },
  {
    key: 'months',
    name: 'Months of its own, one to a line',
    hint: 'Such as Dec: rest, or Jan: none, or May: 60 %',
    written: 'pairs',
  },
];

/** What is measured with. */
export const KIT_FIELDS: readonly BenchField[] = [
  { key: 'spoons', name: 'Spoons, level', hint: 'With commas between: 1 tsp, 1/2 tsp, 1/4 tsp', written: 'list' },
  { key: 'scale', name: 'Scale', hint: 'Its smallest step, such as 0.01 g, or 0.01 g ± 0.02 g' },
  { key: 'syringe', name: 'Syringe', hint: 'Its size, such as 1 mL, or 5 mL by 0.2 mL' },
  { key: 'dropper', name: 'Dropper', hint: 'Such as 20 drops/mL' },
  { key: 'cans', name: 'Cans and jugs', hint: 'With commas between: 1 US gal, 500 mL', written: 'list' },
];

/** Where the bench stands, for the year. */
export const SEASON_FIELDS: readonly BenchField[] = [
  {
    key: 'hemisphere',
    name: 'Half of the world',
    hint: '',
    choices: [
      { id: '', name: 'not said' },
      { id: 'north', name: 'north' },
      { id: 'south', name: 'south' },
    ],
  },
  {
    key: 'light',
    name: 'Light, January to December',
    hint: 'Twelve figures that grow with it, such as hours of sun',
    written: 'list',
  },
  { key: 'temperature', name: 'Warmth, January to December', hint: 'Twelve means in °C', written: 'list' },
];

/** Of the bench itself. */
export const BENCH_FIELDS: readonly BenchField[] = [
  { key: 'name', name: 'Name of the bench', hint: '' },
  { key: 'currency', name: 'Money', hint: 'What prices are in, such as EUR' },
  {
    key: 'law',
    name: 'Whose law the labels follow',
    hint: 'It says what a label may be off by',
    choices: [
      { id: '', name: 'not said: as in the US' },
      { id: 'us', name: 'US' },
      { id: 'eu', name: 'EU' },
    ],
  },
];

/** Pens by what they show; any other scale of a bench stays as it is. */
export const PENS = [
  { id: 'EC', name: 'EC, in mS/cm or µS/cm' },
  { id: '{ scale: 500 }', name: 'ppm, 500 scale' },
  { id: '{ scale: 640 }', name: 'ppm, 640 scale' },
  { id: '{ scale: 700 }', name: 'ppm, 700 scale' },
];

/** Keys that have a control of their own in the place. */
export const OWN_CONTROLS = { bench: ['water', 'pen', 'kit', 'season', 'feeds'], feed: ['plants', 'medium', 'phase'] };
