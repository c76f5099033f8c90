import { log10, pow } from '../../units/elementary.js';
/** Properties of water and of equilibrium constants between 0 and 40 °C. */
export interface Water {
  kelvin: number;
  /** Debye–Hückel A, kg^½ mol^−½ (log10), and B, kg^½ mol^−½ Å^−1 */
  a: number;
  b: number;
  /** g/cm³ */
  density: number;
  /** mPa·s */
  viscosity: number;
  permittivity: number;
}

export function waterAt(celsius: number): Water {
  const kelvin = celsius + 273.15;
  const density = densityAt(celsius);
  // Malmberg & Maryott 1956, J. Res. NBS 56:1
  const permittivity = 87.74 - 0.40008 * celsius + 9.398e-4 * celsius ** 2 - 1.41e-6 * pow(celsius, 3);
  const et = permittivity * kelvin;
  return {
    kelvin,
    density,
    permittivity,
    viscosity: viscosityAt(celsius),
    // Truesdell & Jones 1974, J. Res. USGS 2:233
    a: (1.82483e6 * Math.sqrt(density)) / pow(et, 1.5),
    b: (50.2916 * Math.sqrt(density)) / Math.sqrt(et),
  };
}

/** g/cm³; Kell 1975, J. Chem. Eng. Data 20:97. */
function densityAt(t: number): number {
  const poly =
    999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return poly / (1 + 16.87985e-3 * t) / 1000;
}

/** mPa·s; Korson, Drost-Hansen & Millero 1969, J. Phys. Chem. 73:34. */
function viscosityAt(t: number): number {
  const d = t - 20;
  return 1.002 * pow(10, (-1.1709 * d - 0.001827 * d * d) / (t + 89.93));
}

export interface TemperatureLaw {
  logK25: number;
  enthalpyKJ?: number;
  analytic?: readonly number[];
}

/** log10 K at a temperature: from the published analytic expression, shifted to the stated value at 25 °C, or van 't Hoff. */
export function logKAt(law: TemperatureLaw, kelvin: number): number {
  if (law.analytic) return law.logK25 + analytic(law.analytic, kelvin) - analytic(law.analytic, 298.15);
  return law.logK25 + ((law.enthalpyKJ ?? 0) / 0.0191448) * (1 / 298.15 - 1 / kelvin);
}

function analytic(terms: readonly number[], t: number): number {
  const [a0 = 0, a1 = 0, a2 = 0, a3 = 0, a4 = 0, a5 = 0] = terms;
  return a0 + a1 * t + a2 / t + a3 * log10(t) + a4 / (t * t) + a5 * t * t;
}
