/** Where somebody is told a thing: at the command line, or in a place of the page, which is built with this word. */
declare const DOOR: 'page' | undefined;

const inThePage = typeof DOOR !== 'undefined' && DOOR === 'page';

/**
 * What is done otherwise in a terminal than in the page, said for the door somebody stands at: `typed` names commands and options, `page`
 * places and fields. A test holds every text that the page bundles to this.
 */
export const atDoor = ({ typed, page }: { typed: string; page: string }): string => (inThePage ? page : typed);
