/** Tells what a long search is at. */
export type Say = (step: string) => void;

/** Waited for between the plans of a long question: it rejects where nobody wants the answer any more. */
export type Pause = () => Promise<void>;
