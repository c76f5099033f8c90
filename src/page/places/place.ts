import type { ComponentType } from 'preact';
import type { Desk } from '../desk.js';
import type { State } from '../state.js';

/** One place of the page. */
export interface Place {
  /** As the bar calls it: one short word. */
  word: string;
  /** Drawn in a field of 24 by 24, with strokes in the colour of the text. */
  icon: string;
  View: ComponentType<PlaceProps>;
}

export interface PlaceProps {
  state: State;
  desk: Desk;
}
