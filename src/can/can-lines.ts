import type { MilliSiemensPerCm } from '../units/index.js';

/**
 * Predicted conductivity at 25 °C of the feed solution (water included), mS/cm; low…high for what labels leave open and for the
 * error of the model, 3 %.
 */
export interface EcLine {
  mSPerCm: MilliSiemensPerCm;
  low: MilliSiemensPerCm;
  high: MilliSiemensPerCm;
}

/** Conductivity without a pen's correction, at the temperature of the feed solution. */
export interface EcAtTemperature {
  celsius: number;
  mSPerCm: MilliSiemensPerCm;
  low: MilliSiemensPerCm;
  high: MilliSiemensPerCm;
}

/** Predicted pH of the feed solution after standing open to air; an estimate. */
export interface PhLine {
  value: number;
  low: number;
  high: number;
  /** As mixed, with the carbon dioxide that the water brought, before any leaves or enters. */
  asMixed: number;
  /** False where traces of acid or alkali move it: less than half a meq/L of alkalinity. */
  buffered: boolean;
}

/** Potential acidity of the feed solution, mg CaCO3 per litre: what it does to the pH of a medium over time. Negative is basicity. */
export interface AcidityLine {
  /** Pierre's formula: what the salts leave behind; low…high for what labels leave open. */
  mgCaCO3PerLitre: number;
  low: number;
  high: number;
  /** If all ammonium and urea turned into nitrate and none were taken up: the worst case. */
  ifAllNitrifies: number;
  /** Alkalinity of the feed solution (water included), which works against it; meq/L. */
  alkalinity: number;
  /** Where the pH of the medium goes; `steady` where the potential is too small to matter. */
  drift: 'acid' | 'basic' | 'steady';
}

/** Nitrogen of a feed solution that is free ammonia (NH3), which harms roots; mg/L. */
export interface AmmoniaLine {
  /** As mixed and after standing open to air, at the temperature of the can. */
  mgPerLitre: number;
  standing: number;
  pH: number;
  celsius: number;
  /** Above which it is told. */
  most: number;
  evidence: string;
}
