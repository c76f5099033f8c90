import type { Kit } from '../catalog/bench-types.js';
import { unitNamed } from '../units/table.js';
import { type Batch, plannedLitres } from './batch.js';

/** Litres of the gallons whose quarters a jug may be marked in. */
export const GALLONS: readonly { name: string; litres: number }[] = ['US gal', 'imperial gal'].map((name) => {
  const { times, over } = unitNamed(name)!;
  return { name, litres: times / over / 1000 };
});

const isWhole = (x: number): boolean => x > 0.5 && Math.abs(x - Math.round(x)) < 1e-4;

/** The gallon in whose quarters a volume is whole. */
export const gallonOf = (litres: number): (typeof GALLONS)[number] | undefined =>
  GALLONS.find((gallon) => isWhole((4 * litres) / gallon.litres));

/**
 * Litres from one mark of the grower's jugs to the next: a quarter gallon where batch or cans are in gallons, else 250 mL, 50 mL for less
 * than 2 L (common practice, no source).
 */
export function jugMark(batch: Batch, { cans }: Kit): number {
  const planned = plannedLitres(batch);
  const gallon = [planned, ...(cans ?? []).map(({ millilitres }) => millilitres / 1000)].map(gallonOf).find(Boolean);
  return gallon !== undefined ? gallon.litres / 4 : planned < SMALL ? 0.05 : 0.25;
}

const SMALL = 2;
