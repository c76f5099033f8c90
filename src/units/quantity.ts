declare const unitOf: unique symbol;

/** A number that carries its unit in its type, so that grams per litre cannot pass for milligrams per litre. */
export type Quantity<Unit extends string> = number & { readonly [unitOf]: Unit };

export type Grams = Quantity<'g'>;
export type Millilitres = Quantity<'mL'>;
export type GramsPerLitre = Quantity<'g/L'>;
export type MilligramsPerLitre = Quantity<'mg/L'>;
export type MillilitresPerLitre = Quantity<'mL/L'>;
export type Percent = Quantity<'%'>;
export type MilliSiemensPerCm = Quantity<'mS/cm'>;
export type DropsPerMillilitre = Quantity<'drops/mL'>;

export const grams = (x: number): Grams => x as Grams;
export const millilitres = (x: number): Millilitres => x as Millilitres;
export const gramsPerLitre = (x: number): GramsPerLitre => x as GramsPerLitre;
export const millilitresPerLitre = (x: number): MillilitresPerLitre => x as MillilitresPerLitre;
export const percent = (x: number): Percent => x as Percent;
export const milliSiemensPerCm = (x: number): MilliSiemensPerCm => x as MilliSiemensPerCm;
export const dropsPerMillilitre = (x: number): DropsPerMillilitre => x as DropsPerMillilitre;

/** g/L → mg/L, the one way across. */
export const milligramsPerLitre = (x: GramsPerLitre): MilligramsPerLitre => (x * 1000) as MilligramsPerLitre;
/** mL → L. */
export const litres = (x: Millilitres): Quantity<'L'> => (x / 1000) as Quantity<'L'>;
