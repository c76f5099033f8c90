declare const unitOf: unique symbol;

/**
 * A number that carries its unit in its type, so that grams per litre cannot pass for milligrams per litre. It is made by the function named
 * after its unit, and passes into another unit by a conversion alone; sums and products of quantities are plain numbers, whose unit is
 * said anew. In JSON it is the number.
 */
export type Quantity<Unit extends string> = number & { readonly [unitOf]: Unit };

export type Grams = Quantity<'g'>;
export type Millilitres = Quantity<'mL'>;
export type Litres = Quantity<'L'>;
export type MgPerLitre = Quantity<'mg/L'>;
/** Alkalinity and acidity, as so much calcium carbonate. */
export type MgCaCO3PerLitre = Quantity<'mg/L CaCO3'>;
export type MeqPerLitre = Quantity<'meq/L'>;
export type GramsPerLitre = Quantity<'g/L'>;
export type MillilitresPerLitre = Quantity<'mL/L'>;
export type Percent = Quantity<'%'>;
export type MilliSiemensPerCm = Quantity<'mS/cm'>;
export type MicroSiemensPerCm = Quantity<'µS/cm'>;
export type DropsPerMillilitre = Quantity<'drops/mL'>;

export const grams = (x: number): Grams => x as Grams;
export const millilitres = (x: number): Millilitres => x as Millilitres;
export const litres = (x: number): Litres => x as Litres;
export const mgPerLitre = (x: number): MgPerLitre => x as MgPerLitre;
export const mgCaCO3PerLitre = (x: number): MgCaCO3PerLitre => x as MgCaCO3PerLitre;
export const meqPerLitre = (x: number): MeqPerLitre => x as MeqPerLitre;
export const gramsPerLitre = (x: number): GramsPerLitre => x as GramsPerLitre;
export const millilitresPerLitre = (x: number): MillilitresPerLitre => x as MillilitresPerLitre;
export const percent = (x: number): Percent => x as Percent;
export const milliSiemensPerCm = (x: number): MilliSiemensPerCm => x as MilliSiemensPerCm;
export const microSiemensPerCm = (x: number): MicroSiemensPerCm => x as MicroSiemensPerCm;
export const dropsPerMillilitre = (x: number): DropsPerMillilitre => x as DropsPerMillilitre;

export const litresOf = (x: Millilitres): Litres => litres(x / 1000);
export const millilitresOf = (x: Litres): Millilitres => millilitres(x * 1000);
export const mgPerLitreOf = (x: GramsPerLitre): MgPerLitre => mgPerLitre(x * 1000);
export const gramsPerLitreOf = (x: MgPerLitre): GramsPerLitre => gramsPerLitre(x / 1000);
export const milliSiemensOf = (x: MicroSiemensPerCm): MilliSiemensPerCm => milliSiemensPerCm(x / 1000);
export const microSiemensOf = (x: MilliSiemensPerCm): MicroSiemensPerCm => microSiemensPerCm(x * 1000);

/** So many times as much, in the same unit. */
export const scaleBy = <Q extends Quantity<string>>(x: Q, factor: number): Q => (x * factor) as Q;

/** The same shape with plain numbers, as data is written down. */
export type WithoutUnits<T> =
  T extends Quantity<string>
    ? number
    : T extends string | number | boolean | null | undefined | ReadonlyMap<unknown, unknown>
      ? T
      : { [K in keyof T]: WithoutUnits<T[K]> };
