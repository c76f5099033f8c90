/** Critical relative humidity at 30 °C, %: encyclopedia article with tables of pure salts and of mixtures (excerpt read, primary source not seen). */

/** Formula, pure salt; and of commercial grades near 70 %, Clayton, W.E. (1984), Humidity factors affecting storage and handling of fertilizers, IFDC, as quoted elsewhere. */
export const CRITICAL_HUMIDITY: readonly (readonly [formula: string, pure: number, commercial?: number])[] = [
  ['Ca(NO3)2·4H2O', 46.7],
  ['NH4NO3', 59.4],
  ['NaNO3', 72.4],
  ['CO(NH2)2', 72.5, 70],
  ['NH4Cl', 77.2],
  ['(NH4)2SO4', 79.2],
  ['(NH4)2HPO4', 82.5, 70],
  ['KCl', 84.0, 70],
  ['KNO3', 90.5],
  ['NH4H2PO4', 91.6, 70],
  ['K2SO4', 96.3],
];

/** Mixtures of two salts, by their names. */
export const MIXED_HUMIDITY: readonly (readonly [names: readonly string[], humidity: number])[] = [
  [['ammonium nitrate', 'urea'], 18.1],
  [['ammonium nitrate', 'ammonium sulfate'], 62.3],
  [['ammonium nitrate', 'potassium chloride'], 67.9],
  [['urea', 'ammonium sulfate'], 56.4],
  [['urea', 'potassium chloride'], 60.3],
  [['ammonium sulfate', 'potassium chloride'], 71.3],
];
