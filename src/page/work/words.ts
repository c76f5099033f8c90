import { shippedCatalog } from '../../desk/shipped-catalog.js';

/** What can be chosen from: an id, and what people call it. */
export interface Choice {
  id: string;
  name: string;
}

/** The words of the catalog: plants, media, phases, waters. */
export interface WordsView {
  plants: (Choice & { media: readonly string[] })[];
  media: Choice[];
  phases: Choice[];
  waters: Choice[];
}

export async function wordsQuestion(_: Record<string, never>): Promise<WordsView> {
  const { plants, media, phases, waters } = shippedCatalog();
  const choices = (terms: readonly { id: string; name?: string }[]): Choice[] =>
    terms.map(({ id, name }) => ({ id, name: name || id }));
  return {
    plants: plants.map(({ id, name, media: suits }) => ({ id, name: name || id, media: suits })),
    media: choices(media),
    phases: choices(phases),
    waters: choices(waters),
  };
}
