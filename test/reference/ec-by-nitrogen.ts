/**
 * Conductivity of common grades by mg/L of nitrogen, above that of the clear water, mS/cm at 25 °C (no source tells forms of nitrogen, salts or
 * the water). UDEL: University of Delaware Cooperative Extension, Kent County, 2008, Greenhouse and Nursery: check your fertilizer injectors
 * (excerpt; credited to UMass Extension Floriculture; two makers of each grade). NEWS: horticultural supplier newsletter vol. 38, a label
 * chart (table; 15-5-15 at three rates; no extension service). MSU: Michigan State University Extension, Ensuring proper fertilizer concentration
 * (table; "about 20 % N" without a grade, so it is only asked to lie within the ranges of 20-10-20 with and without forms).
 */
export const PUBLISHED_EC_BY_N = [
  {
    grade: '20-20-20',
    row: { N: 20, P2O5: 20, K2O: 20 },
    mgPerLitre: 100,
    low: 0.41,
    high: 0.46,
    within: 0,
    source: 'UDEL',
  },
  {
    grade: '15-0-15',
    row: { N: 15, P2O5: 0, K2O: 15 },
    mgPerLitre: 100,
    low: 0.69,
    high: 0.76,
    within: 0,
    source: 'UDEL',
  },
  {
    grade: '15-5-15',
    row: { N: 15, P2O5: 5, K2O: 15 },
    mgPerLitre: 100,
    low: 0.74,
    high: 0.74,
    within: 0.05,
    source: 'NEWS',
  },
  {
    grade: '15-5-15',
    row: { N: 15, P2O5: 5, K2O: 15 },
    mgPerLitre: 200,
    low: 1.48,
    high: 1.48,
    within: 0.05,
    source: 'NEWS',
  },
  {
    grade: '20-10-20, all nitrogen nitrate and ammonium',
    row: { N: 20, 'NO3-N': 12, 'NH4-N': 8, 'urea-N': 0, P2O5: 10, K2O: 20 },
    mgPerLitre: 100,
    low: 0.64,
    high: 0.64,
    within: 0.05,
    source: 'MSU',
  },
  {
    grade: '20-10-20, all nitrogen nitrate and ammonium',
    row: { N: 20, 'NO3-N': 12, 'NH4-N': 8, 'urea-N': 0, P2O5: 10, K2O: 20 },
    mgPerLitre: 200,
    low: 1.28,
    high: 1.28,
    within: 0.05,
    source: 'MSU',
  },
] as const;
