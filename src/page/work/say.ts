/** Tells what a long search is at. */
export type Say = (step: string) => void;
