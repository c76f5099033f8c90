/**
 * pH of a closed solution by its charge balance alone, found by halving the interval: a reckoning of its own beside the model, with ideal
 * ratios of each acid, Davies' activity coefficients and no ion pairs. Dissociation constants at 25 °C: CRC Handbook of Chemistry and
 * Physics (from memory): H2CO3 6.35, 10.33; H3PO4 2.15, 7.20, 12.35; NH4 9.25; H4SiO4 9.83, 13.17; B(OH)3 9.24; citric 3.13, 4.76, 6.40; acetic 4.76.
 * @param mmol totals in mmol/L; `strong` the charge of ions that take up no proton, meq/L
 */
export function pHByChargeBalance(mmol: Partial<Record<keyof typeof ACIDS, number>> & { strong: number }): number {
  let [low, high] = [0, 14];
  let ionicStrength = 0;
  for (let round = 0; round < 60; round += 1) {
    const found = bisect(mmol, ionicStrength);
    low = high = found.pH;
    ionicStrength = found.ionicStrength;
  }
  return (low + high) / 2;
}

/** Charge of the form without protons that an acid can lose here, and its pKs from the strongest. */
const ACIDS = {
  carbonate: { bare: -2, pK: [6.35, 10.33] },
  phosphate: { bare: -3, pK: [2.15, 7.2, 12.35] },
  ammonium: { bare: 0, pK: [9.25] },
  silicate: { bare: -2, pK: [9.83, 13.17] },
  borate: { bare: -1, pK: [9.24] },
  citrate: { bare: -3, pK: [3.13, 4.76, 6.4] },
  acetate: { bare: -1, pK: [4.76] },
} as const;

function bisect(mmol: Parameters<typeof pHByChargeBalance>[0], ionicStrength: number) {
  const root = Math.sqrt(ionicStrength);
  const logGamma = (z: number): number => -0.509 * z * z * (root / (1 + root) - 0.3 * ionicStrength);
  const at = (pH: number): { charge: number; strength: number } => {
    const hydrogen = 10 ** (-pH - logGamma(1));
    const hydroxide = 10 ** (pH - 14 - logGamma(-1));
    let charge = mmol.strong / 1000 + hydrogen - hydroxide;
    let strength = Math.abs(mmol.strong) / 1000 + hydrogen + hydroxide;
    for (const [name, { bare, pK }] of Object.entries(ACIDS)) {
      const total = (mmol[name as keyof typeof ACIDS] ?? 0) / 1000;
      // share of each form, the one with all its protons first, as activities at this pH over activity coefficients
      const forms = [...pK.keys(), pK.length].map((lost) => {
        const z = bare + pK.length - lost;
        return { z, part: 10 ** (lost * pH - pK.slice(0, lost).reduce((a, b) => a + b, 0) - logGamma(z)) };
      });
      const sum = forms.reduce((a, { part }) => a + part, 0);
      for (const { z, part } of forms) {
        charge += (z * total * part) / sum;
        strength += (z * z * total * part) / sum;
      }
    }
    return { charge, strength };
  };
  let [low, high] = [0, 14];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (at(middle).charge > 0) low = middle;
    else high = middle;
  }
  return { pH: low, ionicStrength: at(low).strength / 2 };
}
