import { formatNumber } from './format.js';

/** The least and the most that a quantity can be where people grow plants in pots; past it the figure or its unit is a slip. */
export interface Bounds {
  least: number;
  most: number;
  unit: string;
  /** The ends as people write them, where that is in other units. */
  written?: readonly [least: string, most: string];
  /** True where nothing at all may be said too, whatever the least. */
  orNothing?: true;
}

/**
 * One table for files, options and rules alike. Where no source is named the ends are judgement: wide of everything on sale or in use, and
 * narrow enough that every step of the reckoning stays well within what numbers hold.
 */
export const BOUNDS = {
  /** From a pinch spoon to a ladle. */
  spoon: { least: 0.02, most: 100, unit: 'mL' },
  /** An analytical balance shows 0.1 mg. */
  scaleStep: { least: 1e-4, most: 100, unit: 'g', written: ['0.1 mg', '100 g'] },
  syringe: { least: 0.05, most: 1000, unit: 'mL' },
  syringeMark: { least: 0.001, most: 1000, unit: 'mL' },
  dropper: { least: 1, most: 200, unit: 'drops/mL' },
  /** In less neither spoons nor a pen are of any use; a tanker holds the most. */
  can: { least: 0.1, most: 30_000, unit: 'L', written: ['100 mL', '30000 L'] },
  weekly: { least: 0.001, most: 30_000, unit: 'L', written: ['1 mL', '30000 L'] },
  /** From one to a glasshouse of them. */
  pots: { least: 1, most: 100_000, unit: 'pots' },
  /** From a thumb pot to a tub. */
  pot: { least: 0.01, most: 1000, unit: 'L', written: ['10 mL', '1000 L'] },
  /** In whatever grows with light: noon in the open is some 120,000 lux. */
  light: { least: 0, most: 200_000, unit: '' },
  leadDays: { least: 0, most: 364, unit: 'days' },
  jug: { least: 10, most: 200_000, unit: 'mL', written: ['10 mL', '200 L'] },
  /** A pack, or what is left of it: g of a powder, mL of a liquid. */
  pack: { least: 0.01, most: 1e6, unit: 'g or mL' },
  onHand: { least: 0.01, most: 1e6, unit: 'g or mL', orNothing: true },
  /** A figure of a label, or a purity; the least is a hundredth of a milligram in a kilogram. */
  labelFigure: { least: 1e-6, most: 100, unit: '%', orNothing: true },
  rate: { least: 1e-5, most: 1000, unit: 'g/L or mL/L' },
  price: { least: 0, most: 1e6, unit: '' },
  /** Of a litre. */
  waterPrice: { least: 0, most: 1000, unit: '' },
  /** Liquids from light alcohols to phosphoric acid lie within; from memory. */
  density: { least: 0.7, most: 2, unit: 'g/mL' },
  /** A level powder, from fluffy seaweed powder to dense crystals; from memory. */
  bulkDensity: { least: 0.1, most: 2.5, unit: 'g/mL' },
  /** EC of 1 g/L as a label tells it: potassium chloride makes 1.9, acids up to 6; from memory. */
  ecOfLabel: { least: 0, most: 10, unit: 'mS/cm' },
  /** Feeds stay below 5; nothing a pen for growers shows is beyond the most. */
  penReading: { least: 0, most: 20, unit: 'mS/cm' },
  temperature: { least: 0, most: 40, unit: '°C' },
  /** Ten years of shopping. */
  weeks: { least: 0.1, most: 520, unit: 'weeks' },
  /** Nobody feeds at five times full strength. */
  strengthPercent: { least: 1, most: 500, unit: '%' },
  strengthNitrogen: { least: 1, most: 2000, unit: 'mg/L' },
  /** A number in a rule: a factor, a share, mg/L or mS/cm. */
  ruleNumber: { least: 1e-9, most: 1e6, unit: '', orNothing: true },
} as const satisfies Record<string, Bounds>;

export type Bounded = keyof typeof BOUNDS;

/** The most characters in a cell of a table and on a printed label, feeds of a bench, products of a shelf. */
export const MOST = { cell: 2000, label: 20_000, feeds: 200, products: 5000 } as const;

/** True where the figure, in the unit of its bounds, lies within them. */
export function isWithin(name: Bounded, value: number): boolean {
  const { least, most, orNothing }: Bounds = BOUNDS[name];
  return (value >= least && value <= most) || (orNothing === true && value === 0);
}

/** `from 0.02 to 100 mL`, `from 100 mL to 30000 L`. */
export function rangeText(name: Bounded): string {
  const { least, most, unit, written, orNothing }: Bounds = BOUNDS[name];
  const [from, to] = written ?? [formatNumber(least, 12), `${formatNumber(most, 12)} ${unit}`];
  return `${orNothing ? '0, or ' : ''}from ${from} to ${to}`.trim();
}
