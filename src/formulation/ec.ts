import type { Product, Water } from '../catalog/product.js';
export function linearEcOfProduct(_p: Product): { mSPerCm: number; low: number; high: number } {
  return { mSPerCm: 0, low: 0, high: 0 };
}
export function linearEcOfWater(_w: Water): number {
  return 0;
}
