/** Whose law a label follows: what a figure may be off by. */
export type Law = 'us' | 'eu';
