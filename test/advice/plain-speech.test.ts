import { describe, expect, it } from 'vitest';
import { wordsMeant } from '../../src/desk/words-read.js';
import { exampleFiles } from '../desk/benches.js';
import { type Meaning, SENTENCES } from './plain-sentences.js';

const moss = exampleFiles('moss-without-ammonium');

/** What a sentence was read as, in the terms of the table. */
async function readAs(text: string): Promise<Meaning> {
  const meant = await wordsMeant(moss, { recipe: text });
  if (meant.kind === 'asked')
    return {
      asked: meant.problems.map(
        (p) => new RegExp([p.found, p.expected, p.fix].join(' | ').replace(/[.*+?^${}()|[\]\\]/g, '\\$&')),
      ),
    };
  if (meant.kind === 'recipe')
    return {
      recipe: Object.fromEntries(meant.recipe.lines.map((l) => [l.product.id, l.amount! / meant.recipe.volumeLitres])),
    };
  const [first] = meant.readings;
  return {
    advice: first!.counts as 'N',
    ...(first!.wanted ? { wanted: [first!.wanted.low, first!.wanted.high] as [number, number] } : {}),
    readings: meant.readings.length,
    atMost: meant.atMost,
    ...(first!.sense.kind === 'own product' ? { own: first!.sense.id } : {}),
  };
}

/** What was asked back. */
const said = (read: Meaning): string =>
  'asked' in read ? read.asked.map((r) => r.source.replaceAll('\\', '')).join('\n') : '';

describe('sentences of growers', () => {
  it('are more than sixty', () => expect(SENTENCES.length).toBeGreaterThan(60));

  it.each(SENTENCES)('%s', async (text, meaning) => {
    const read = await readAs(text);
    if ('asked' in meaning) {
      expect(read, JSON.stringify(read)).toHaveProperty('asked');
      for (const pattern of meaning.asked) expect(said(read)).toMatch(pattern);
    } else if ('recipe' in meaning) {
      expect(read, JSON.stringify(said(read))).toHaveProperty('recipe');
      const { recipe } = read as { recipe: Record<string, number> };
      expect(Object.keys(recipe).sort()).toEqual(Object.keys(meaning.recipe).sort());
      for (const [id, amount] of Object.entries(meaning.recipe)) expect(recipe[id]! / amount).toBeCloseTo(1, 9);
    } else {
      expect(read, text).toMatchObject({
        ...meaning,
        ...(meaning.wanted ? { wanted: meaning.wanted.map((x) => expect.closeTo(x, 6)) } : {}),
      });
    }
  });
});

it('what stands on the shelf by that name is meant, and not the catalog’s', async () => {
  const shelf = {
    name: 'shelf.csv',
    text: 'id,name,form,formula\nbag,Calcium nitrate,powder,5Ca(NO3)2·NH4NO3·10H2O\n',
  };
  const meant = await wordsMeant({ ...moss, shelf }, { recipe: '2 g calcium nitrate in 4 L' });
  if (meant.kind !== 'recipe') throw new Error(meant.kind);
  expect(meant.recipe.lines.map(({ product }) => product.id)).toEqual(['bag']);
});
