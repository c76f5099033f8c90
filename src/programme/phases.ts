/** What plants stand in, and what they are doing: a programme is for one of each. */
export const MEDIA = ['sphagnum', 'bark', 'coir', 'peat', 'clay', 'mounted'] as const;
export type Medium = (typeof MEDIA)[number];
export const PHASES = ['growth', 'bloom', 'rest'] as const;
export type Phase = (typeof PHASES)[number];
