import type { OptionSpec } from './command.js';

/** Options that say which bench, feed, shelf and water; shared by blend, reach and assess. */
export const FEED_OPTIONS: Record<string, OptionSpec> = {
  bench: { value: 'DIR', says: 'the bench: a folder with bench.yaml and shelf.csv (default: the current folder)' },
  feed: { value: 'NAME', says: 'the feed of the bench (default: all, in the order of the file)' },
  plants: { value: 'GROUP', says: 'plant group, for example phalaenopsis or "moth orchid"' },
  medium: { value: 'MEDIUM', says: 'sphagnum, bark, coir, peat, clay or mounted' },
  phase: { value: 'PHASE', says: 'growth, bloom or rest (default: growth)' },
  strength: { value: 'HOW', says: 'share of full strength ("80 %") or total nitrogen ("N 90 mg/L")' },
  shelf: { value: 'FILE', says: 'products on hand (default: shelf.csv of the bench)' },
  water: {
    value: 'WATER',
    says: 'a water of the catalog (rain, …) or an analysis in mg/L: "Ca=40, Mg=11, alkalinity=130"',
  },
  mix: { value: 'AMOUNT', says: 'how much to mix, with its unit: "4 L", "1 US gal"' },
  currency: { value: 'CODE', says: 'money that the prices are in' },
  nh4: { value: 'SHARE', says: 'most ammonium as a share of total nitrogen: 0, "10 %" or 0.1' },
  rule: { value: 'RULE', says: 'a rule of your own, for example "Ca >= 3 * Mg" or "EC <= 0.6"', repeatable: true },
};

/** Options that change what stands on the shelf. */
export const SHELF_OPTIONS: Record<string, OptionSpec> = {
  with: { value: 'ID', says: 'as if this product of the catalog stood on the shelf too', repeatable: true },
  without: { value: 'ID', says: 'as if this product were not there', repeatable: true },
};

/** For commands that say what a meter will show. */
export const METER_OPTIONS: Record<string, OptionSpec> = {
  temperature: { value: 'TEMP', says: 'temperature of the can, to show its EC there too: "18 °C"' },
};
