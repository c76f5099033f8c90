/** The places of the page, in the order of its bar. */
export const PLACES = ['shelf', 'plants', 'feed', 'sink', 'buy', 'year', 'files'] as const;
export type PlaceName = (typeof PLACES)[number];
