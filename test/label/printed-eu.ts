/** Texts of EU, UK and Australian labels of invented makers, what they tell (`column %`), and their sources. */
export const EU_LABELS: readonly [text: string, told: string, sources?: string][] = [
  [
    'NPK fertiliser 14-7-17 with magnesium\n14 % total nitrogen (N)\n 8,2 % nitric nitrogen\n 5,8 % ammoniacal nitrogen\n7 % phosphorus pentoxide (P2O5) soluble in neutral ammonium citrate and water\n of which 6,5 % water-soluble P2O5\n17 % potassium oxide (K2O) soluble in water\n2 % magnesium oxide (MgO)\n0,02 % boron (B)\n0,04% iron (Fe) chelated by EDTA\nIngredients: potassium nitrate; ammonium nitrate; magnesium sulphate',
    'N 14 NO3-N 8.2 NH4-N 5.8 P2O5 7 K2O 17 MgO 2 B 0.02 Fe 0.04',
    'potassium nitrate; ammonium nitrate; magnesium sulphate',
  ],
  [
    'NO3-N 5,5 %, NH4-N 2,1 %, ureic N 3,4 %, P2O5 6 %, K2O 9 %, MgO 2 %, SO3 4 %',
    'NO3-N 5.5 NH4-N 2.1 urea-N 3.4 P2O5 6 K2O 9 MgO 2 SO3 4',
  ],
  [
    'Total nitrogen (N): 9 %\nNitric nitrogen (N): 4,1 %\nAmmoniacal nitrogen (N): 1,7 %\nUreic nitrogen (N): 3,2 %\nPhosphorus pentoxide (P2O5) soluble in water: 8 %\nPotassium oxide (K2O) soluble in water: 19 %',
    'N 9 NO3-N 4.1 NH4-N 1.7 urea-N 3.2 P2O5 8 K2O 19',
  ],
  [
    '15,4 % N total\n14,3 % nitric nitrogen\n1,1 % ammoniacal nitrogen\n25,9 % calcium oxide (CaO) soluble in water',
    'N 15.4 NO3-N 14.3 NH4-N 1.1 CaO 25.9',
  ],
  [
    'Magnesium oxide (MgO) soluble in water 15,8 %\nSulphur trioxide (SO3) soluble in water 31,4 %',
    'MgO 15.8 SO3 31.4',
  ],
  ['Sulphur trioxide (SO₃) 12,5%\nPotassium oxide (K₂O) 29%', 'SO3 12.5 K2O 29'],
  ['N-NO3 6,2 % · N-NH4 1,8 % · N-ureic 4 % · P2O5 5 % · K2O 11 %', 'NO3-N 6.2 NH4-N 1.8 urea-N 4 P2O5 5 K2O 11'],
  [
    'Nitrogen (N) total 6.0%\nPhosphorus pentoxide (P2O5) soluble in water 4.0% (1.7% P)\nPotassium oxide (K2O) soluble in water 7.0% (5.8% K)',
    'N 6 P2O5 4 P 1.7 K2O 7 K 5.8',
  ],
  ['Total Nitrogen (N) 4,5 %, carbamide nitrogen 4,5 %; density 1,15 kg/l', 'N 4.5 urea-N 4.5'],
  ['Fluid fertiliser. 5 % N total (m/v), 3 % P2O5, 6 % K2O', 'N 5 P2O5 3 K2O 6'],
  ['N 12.3% w/w, P 2.1% w/w, K 14.5% w/w, S 3.3% w/w, Ca 2.2% w/w', 'N 12.3 P 2.1 K 14.5 S 3.3 Ca 2.2'],
  [
    'ANALYSIS (w/w)\nNitrogen (N) as nitrate 7.9%\nNitrogen (N) as ammonium 1.2%\nTotal Nitrogen (N) 9.1%\nTotal Phosphorus (P) 2.6%\nTotal Potassium (K) as nitrate 14%',
    'NO3-N 7.9 NH4-N 1.2 N 9.1 P 2.6 K 14',
  ],
  [
    'Boron (B) 0,01 %\nCopper (Cu)* 0,002 %\nIron (Fe)* 0,03 %\nManganese (Mn)* 0,015 %\nMolybdenum (Mo) 0,001 %\nZinc (Zn)* 0,004 %\n*chelated by EDTA',
    'B 0.01 Cu 0.002 Fe 0.03 Mn 0.015 Mo 0.001 Zn 0.004',
  ],
  ['Iron (Fe) soluble in water 5,7 %, of which chelated by DTPA 5,2 %', 'Fe 5.7'],
  ['Calcium (CaO) 9 %\nPotassium (K2O) 12 %\nPhosphorus (P2O5) 4 %\nSulfur (SO3) 3 %', 'CaO 9 K2O 12 P2O5 4 SO3 3'],
  ['phosphoric anhydride (P2O5) 11 % ; potassium oxide 22 % ; sodium oxide (Na2O) 1,2 %', 'P2O5 11 K2O 22 Na2O 1.2'],
  [
    'Declared nutrient contents\nTotal nitrogen (N)\t16,5 %\nurea nitrogen\t16,5 %\nPhosphorus pentoxide\t6 %\nPotassium oxide\t10 %\nComponent materials: urea, monopotassium phosphate, potassium chloride.\nStore dry.',
    'N 16.5 urea-N 16.5 P2O5 6 K2O 10',
    'urea; monopotassium phosphate; potassium chloride',
  ],
  ['8% Nitrogen (N), 4% Phosphate (P2O5), 6% Potash (K2O)', 'N 8 P2O5 4 K2O 6'],
  ['N: 8, P2O5: 4, K2O: 6', 'N 8 P2O5 4 K2O 6'],
  ['2,5 % MgO, 0,3 % Mn, 0,015 % Mo, 1,1 % Zn', 'MgO 2.5 Mn 0.3 Mo 0.015 Zn 1.1'],
  ['Silica (SiO2) 14,2 %; K2O 7,1 %', 'SiO2 14.2 K2O 7.1'],
  ['Organic nitrogen 3,1 %\nTotal nitrogen (N) 3,4 %\nAmmoniacal nitrogen 0,3 %', 'other-N 3.1 N 3.4 NH4-N 0.3'],
];
