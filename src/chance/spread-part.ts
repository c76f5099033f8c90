/** Where a spread comes from. */
export const SOURCES = ['spoons', 'drops', 'syringe', 'scale', 'pen', 'bulk density', 'labels', 'water'] as const;
export type Source = (typeof SOURCES)[number];

/** One independent standard normal deviate with what a unit of it does. */
export interface Part {
  factor: string;
  source: Source;
  by: number;
}
