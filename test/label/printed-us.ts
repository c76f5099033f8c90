/** Texts of US labels of invented makers, what they tell (`column %`), and their sources. */
export const US_LABELS: readonly [text: string, told: string, sources?: string][] = [
  [
    'GUARANTEED ANALYSIS\nTotal Nitrogen (N) ........ 12%\n   10.5% Nitrate Nitrogen\n   1.5% Ammoniacal Nitrogen\nAvailable Phosphate (P2O5) .... 5%\nSoluble Potash (K2O) ..... 10%\nCalcium (Ca) .... 4.0%\nDerived from: Calcium Nitrate, Potassium Nitrate, Monoammonium\nPhosphate.',
    'N 12 NO3-N 10.5 NH4-N 1.5 P2O5 5 K2O 10 Ca 4',
    'Calcium Nitrate; Potassium Nitrate; Monoammonium Phosphate',
  ],
  [
    'Total Nitrogen (N) 12% 10.5% Nitrate Nitrogen 1.5% Urea Nitrogen Available Phosphate (P2O5) 4% Soluble Potash (K2O) 8% Derived from: urea, potassium nitrate and monopotassium phosphate',
    'N 12 NO3-N 10.5 urea-N 1.5 P2O5 4 K2O 8',
    'urea; potassium nitrate; monopotassium phosphate',
  ],
  ['Total Nitrogen (N)...19%\nAvailable Phosphate (P₂O₅)...8%\nSoluble Potash (K₂O)...16%', 'N 19 P2O5 8 K2O 16'],
  ['Total Nitrogen: 9 percent\nAvailable Phosphate: 14 percent\nSoluble Potash: 11 percent', 'N 9 P2O5 14 K2O 11'],
  ['Total Nitrogen\n(N) 7.0%\nAvailable\nPhosphate (P2O5) 3.0%\nSoluble\nPotash (K2O) 8.0%', 'N 7 P2O5 3 K2O 8'],
  [
    'TOTAL NITROGEN (N) 18.00%\n2.10% AMMONIACAL NITROGEN\n4.90% NITRATE NITROGEN\n11.00% UREA NITROGEN\nAVAILABLE PHOSPHATE (P2O5) 9.00%\nSOLUBLE POTASH (K2O) 14.00%',
    'N 18 NH4-N 2.1 NO3-N 4.9 urea-N 11 P2O5 9 K2O 14',
  ],
  [
    'Total Nitrogen (N) 16%\n  Ammoniacal Nitrogen 4.2%\n  Nitrate Nitrogen 11.8%\nSoluble Potash (K2O) 14%\nMagnesium (Mg) 2%\n  2% Water Soluble Magnesium (Mg)',
    'N 16 NH4-N 4.2 NO3-N 11.8 K2O 14 Mg 2',
  ],
  [
    'Iron (Fe) 0.10%\n  0.10% Chelated Iron\nManganese (Mn) 0.05%\n 0.05% Chelated Manganese\nZinc (Zn) .05%\n .05% Chelated Zinc',
    'Fe 0.1 Mn 0.05 Zn 0.05',
  ],
  ['Boron (B) 200 ppm\nMolybdenum (Mo) 10 ppm\nTotal Nitrogen (N) 11%', 'B 0.02 Mo 0.001 N 11'],
  ['Sulfur (S) 3.2% (combined)\nMagnesium (Mg) 2.4%', 'S 3.2 Mg 2.4'],
  [
    'Total nitrogen 21%: nitrate 6.1%, ammoniacal 4.4%, urea 10.5%\nPhosphate 7%\nPotash 12%',
    'N 21 NO3-N 6.1 NH4-N 4.4 urea-N 10.5 P2O5 7 K2O 12',
  ],
  [
    'Sample Liquid Feed 3-2-5\nWeighs 10.1 lb per gal\nTotal Nitrogen (N) 3%\nAvailable Phosphate (P2O5) 2%\nSoluble Potash (K2O) 5%',
    'N 3 P2O5 2 K2O 5',
  ],
  ['Total Nitrogen (N) | 13 % |\nSoluble Potash (K2O) | 45 % |\nChlorine (Cl), max. | 0.8 % |', 'N 13 K2O 45 Cl 0.8'],
  [
    'Total Nitrogen (N) 5.5% — 0.4% Ammoniacal Nitrogen, 2.1% Water Soluble Nitrogen, 3.0% Water Insoluble Nitrogen',
    'N 5.5 NH4-N 0.4 other-N 5.1',
  ],
  ['Calcium (Ca) 14.0%\nNitrate Nitrogen 11.2%\nTotal Nitrogen (N) 11.2%', 'Ca 14 NO3-N 11.2 N 11.2'],
  [
    'N 8%  P2O5 6%  K2O 9%\nDERIVED FROM: POTASSIUM NITRATE, UREA; MONOPOTASSIUM PHOSPHATE\n\nDirections: 5 mL per gallon',
    'N 8 P2O5 6 K2O 9',
    'POTASSIUM NITRATE; UREA; MONOPOTASSIUM PHOSPHATE',
  ],
  [
    'Total Nitrogen (N), 10%\nAvailable Phosphoric Acid (P2O5), 4%\nWater Soluble Potash (K2O), 6%\nNet weight 2 lb (907 g)\nUse 1 tsp per gallon.',
    'N 10 P2O5 4 K2O 6',
  ],
  ['Total Nitrogen (N) = 6%; Nitrate Nitrogen = 6%; Soluble Potash (K2O) = 7%', 'N 6 NO3-N 6 K2O 7'],
  [
    'Copper (Cu) 0.05 %\nCobalt (Co) 0.0015 %\nSodium (Na) 0.1 %\nNickel (Ni) 0.001 %',
    'Cu 0.05 Co 0.0015 Na 0.1 Ni 0.001',
  ],
  [
    'Silicon Dioxide (SiO2) 7.8%\nSoluble Potash (K2O) 3.7%\nDerived from potassium silicate.',
    'SiO2 7.8 K2O 3.7',
    'potassium silicate',
  ],
  [
    'Total Nitrogen (N) ________ 14%\n13.1% nitrate nitrogen\n0.9% ammoniacal nitrogen\nPotential acidity: 240 lb calcium carbonate per ton.',
    'N 14 NO3-N 13.1 NH4-N 0.9',
  ],
];
