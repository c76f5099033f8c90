/** A step tells a dose from five times its own error on: the error is a fifth of the dose then, as with a scale. */
const TIMES_ITS_ERROR = 5;
/** Share of a dose by which a step is off that tells just enough. */
export const MOST_UNTOLD = 1 / TIMES_ITS_ERROR;
/** mS/cm: below this step the last digit of a pen that shows hundredths is too large a part of it, and so is what stirring leaves uneven. */
export const LEAST_STEP = 0.03;

/** The smallest step that a pen tells, mS/cm: for what is steered by it and for what is weighed by it alike. */
export const leastStep = (error: number): number => Math.max(LEAST_STEP, TIMES_ITS_ERROR * error);
