/**
 * Elements per nitrogen in tissue, by weight, from contents usually sufficient in plants in general: N 1.5, K 1.0, Ca 0.5, Mg 0.2, P 0.2,
 * S 0.1 % and Fe 100, Mn 50, Zn 20, Cu 6, B 20, Mo 0.1 mg/kg of dry matter. Epstein, E. (1965), Mineral metabolism, as excerpted in a
 * secondary table: general crops, no epiphytes.
 */
export const TISSUE_PER_NITROGEN = {
  P: 0.2 / 1.5,
  K: 1.0 / 1.5,
  Ca: 0.5 / 1.5,
  Mg: 0.2 / 1.5,
  S: 0.1 / 1.5,
  Fe: 100 / 15_000,
  Mn: 50 / 15_000,
  Zn: 20 / 15_000,
  Cu: 6 / 15_000,
  B: 20 / 15_000,
  Mo: 0.1 / 15_000,
} as const;
