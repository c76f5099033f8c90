declare const unitOf: unique symbol;

/** A number that carries its unit in its type, so that grams per litre cannot pass for milligrams per litre. */
export type Quantity<Unit extends string> = number & { readonly [unitOf]: Unit };

export type Grams = Quantity<'g'>;
export type Millilitres = Quantity<'mL'>;
export type GramsPerLitre = Quantity<'g/L'>;
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
