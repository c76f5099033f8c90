import type { Gallon } from '../advice/named-gallon.js';
import { unitNamed } from '../units/table.js';
import type { OpenBench } from './opened.js';

/** mL. */
const sizeOf = (gallon: Gallon): number => {
  const { times, over } = unitNamed(`${gallon} gal`)!;
  return times / over;
};

/** Whose gallon a bench measures by: its batches and cans hold whole quarters of one, and none of the other; null where they tell nothing. */
export function gallonOf({ feeds, kit: { cans = [] } }: Pick<OpenBench, 'feeds' | 'kit'>): Gallon | null {
  const volumes = [
    ...feeds.flatMap(({ batchLitres }) => (batchLitres === undefined ? [] : [1000 * batchLitres])),
    ...cans.map(({ millilitres }) => millilitres),
  ];
  const found = (['US', 'imperial'] as const).filter((gallon) =>
    volumes.some((volume) => {
      const quarters = (4 * volume) / sizeOf(gallon);
      return Math.abs(quarters - Math.round(quarters)) < 1e-6;
    }),
  );
  return found.length === 1 ? found[0]! : null;
}
