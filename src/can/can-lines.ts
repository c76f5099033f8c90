/**
 * Predicted conductivity at 25 °C of the whole can (water included), mS/cm; low…high for what labels leave open and for the
 * error of the model, 3 %.
 */
export interface EcLine {
  mSPerCm: number;
  low: number;
  high: number;
  max: number | null;
}

/** Conductivity without a pen's correction, at the can's own temperature. */
export interface EcAtTemperature {
  celsius: number;
  mSPerCm: number;
  low: number;
  high: number;
}

/** Predicted pH of the can after standing open to air; an estimate. */
export interface PhLine {
  value: number;
  low: number;
  high: number;
  /** As mixed, before carbon dioxide leaves or enters; null in water with next to no alkalinity, where air decides within minutes. */
  asMixed: number | null;
  caution: string;
}

/** What the feed does to the pH of a medium over time, in mg CaCO3 per litre of feed; negative is basic. */
export interface AcidityLine {
  /** Pierre's formula: what the feed's salts leave behind; low…high for what labels leave open. */
  mgCaCO3PerLitre: number;
  low: number;
  high: number;
  /** If all ammonium and urea turned into nitrate and none were taken up: the worst case. */
  ifAllNitrifies: number;
  /** Alkalinity of the can (water included), which works against it; meq/L. */
  alkalinity: number;
  /** Plain sentences: what it means over time, and what acid a hard water would need. */
  says: string[];
}
