/** The files of a bench that the page keeps, by name: the very texts that the command line reads. */
export const FILE_NAMES = ['bench.yaml', 'shelf.csv', 'journal.csv'] as const;
export type FileName = (typeof FILE_NAMES)[number];
export type BenchTexts = { readonly [Name in FileName]?: string };
