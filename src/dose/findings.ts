/** What a person should know about how the doses can be measured; products by id. */
export type DoseNote =
  | { kind: 'no kit' }
  /** Nothing but spoons would measure this powder, and its bulk density is unknown. */
  | { kind: 'bulk density missing'; product: string; spoon: string }
  /** It is weighed, because its bulk density is unknown. */
  | { kind: 'bulk density unknown'; product: string; spoon: string }
  | { kind: 'nothing measures a powder'; product: string }
  | { kind: 'nothing measures a liquid'; product: string }
  | { kind: 'bulk density of the catalog'; product: string; spoon: string; gramsPerMillilitre: number }
  | { kind: 'can too small'; batchLitres: number; can: string };

/** The doses that an offer comes to, by product id; `words` is null for an item that is left out. */
export type OfferedDose = { product: string; words: string | null };

/** What would make the doses measurable. */
export type DoseOffer =
  /** A pen steers what it can. */
  | { kind: 'pen'; doses: OfferedDose[] }
  /** Powders whose level spoons are to be weighed, ten at a time. */
  | { kind: 'ten spoons'; products: string[]; spoon: string }
  | ItemStockOffer
  /** A larger amount at a time; twice the batch of which half is used. */
  | { kind: 'batch'; litres: number; instead: number; doses: OfferedDose[] }
  | { kind: 'spoon'; label: string; doses: OfferedDose[] }
  /** A set of small level spoons, 1/2 to 1/64 US tsp. */
  | { kind: 'spoons'; doses: OfferedDose[] }
  | { kind: 'scale'; stepGrams: number; doses: OfferedDose[] }
  | { kind: 'syringe'; millilitres: number; doses: OfferedDose[] }
  | StockOffer;

/** Bottles of one item each, measured once; the doses take it from there. */
export interface ItemStockOffer {
  kind: 'item stock';
  bottles: {
    product: string;
    name: string;
    /** What goes in, in words, and g or mL of it. */
    words: string;
    amount: number;
    bottleMillilitres: number;
    /** What a can takes of it. */
    dose: string;
    doseMillilitres: number;
  }[];
  doses: OfferedDose[];
}

/** Stock bottles of which the syringe takes a whole number of marks. */
export interface StockOffer {
  kind: 'stock';
  /** One part in so many parts of feed. */
  ratio: number;
  bottleMillilitres: number;
  bottles: { name: 'A' | 'B' | 'stock'; doses: OfferedDose[] }[];
  /** mL of each bottle for the batch, and in how many fills of the syringe. */
  doseMillilitres: number;
  batchLitres: number;
  syringeMillilitres: number;
  fills: number;
}
