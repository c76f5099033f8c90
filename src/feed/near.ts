import type { Nutrient } from '../chemistry/nutrients.js';
import type { Programme } from '../programme/programme.js';
import { type MgPerLitre, scaleBy } from '../units/index.js';

/** mg/L between which a plan holds an element, as labels state it; an absent end is open. */
export type NearBands = Readonly<
  Partial<Record<Nutrient, { readonly least?: MgPerLitre; readonly most?: MgPerLitre }>>
>;

/** The elements that plants take up by the tenth of a gram; what else has an aim is a trace element. */
export const MAIN_ELEMENTS: readonly Nutrient[] = ['P', 'K', 'Ca', 'Mg', 'S'];

/** A main element may be this many times its aim, or its aim divided by it; a trace element `trace` times. Common practice, no source. */
export const MAIN_WIDTH = 1.35;
export const TRACE_WIDTH = 2;
/** Nitrogen is the measure of strength: a plan holds it within this share of its aim. */
export const NITROGEN_WITHIN = 0.02;

/** How near a plan is asked to be. `factor` grows both widths alike; nothing may be nearer than its aim itself. */
export interface NearAsked {
  factor: number;
  /** Share of its aim within which total nitrogen lies. */
  nitrogenWithin: number;
  /** Elements with a factor of their own, where the shelf holds them farther off than the others. */
  own?: Readonly<Partial<Record<Nutrient, number>>>;
  /** Elements that are left out, because nothing on the shelf brings them. */
  without: readonly Nutrient[];
  /** Elements that are left out, because no mix inside the limits holds them with the others. */
  apart?: readonly Nutrient[];
}

/** Nutrients with an aim above nothing, with that aim, mg/L. */
export function aimsOf({ bands }: Pick<Programme, 'bands'>): [Nutrient, MgPerLitre][] {
  return (Object.entries(bands) as [Nutrient, { aim?: MgPerLitre }][]).flatMap(([nutrient, { aim }]) =>
    aim !== undefined && aim > 0 ? [[nutrient, aim] as [Nutrient, MgPerLitre]] : [],
  );
}

/** Times its aim that an element may be at a factor: at least 1. */
export const widthOf = (nutrient: Nutrient, factor: number): number =>
  Math.max(1, factor * (MAIN_ELEMENTS.includes(nutrient) ? MAIN_WIDTH : TRACE_WIDTH));

/** The bands of a plan: nitrogen around its aim, every other element with an aim between aim / width and aim × width. */
export function nearBands(programme: Pick<Programme, 'bands'>, asked: NearAsked): NearBands {
  return Object.fromEntries(
    aimsOf(programme)
      .filter(([nutrient]) => !asked.without.includes(nutrient) && !asked.apart?.includes(nutrient))
      .map(([nutrient, aim]) => {
        if (nutrient === 'N')
          return [
            nutrient,
            { least: scaleBy(aim, 1 - asked.nitrogenWithin), most: scaleBy(aim, 1 + asked.nitrogenWithin) },
          ];
        const width = widthOf(nutrient, asked.own?.[nutrient] ?? asked.factor);
        return [nutrient, { least: scaleBy(aim, 1 / width), most: scaleBy(aim, width) }];
      }),
  );
}

/** The factor at which an amount would just be near: 1 at the widths of `MAIN_WIDTH` and `TRACE_WIDTH`. */
export function factorOf(nutrient: Nutrient, mgPerLitre: number, aim: number): number {
  const ratio = mgPerLitre > 0 ? Math.max(mgPerLitre / aim, aim / mgPerLitre) : Number.POSITIVE_INFINITY;
  return ratio / (MAIN_ELEMENTS.includes(nutrient) ? MAIN_WIDTH : TRACE_WIDTH);
}

/** The factor that is meant by the share by which main elements may be from their aims. */
export const factorOfShare = (share: number): number => (1 + share) / MAIN_WIDTH;
