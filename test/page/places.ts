import type { Page } from 'playwright-core';

/** Every place of the page: its word in the bar, and what shows that it is ready. */
export const PLACES: { word: string; ready: (page: Page) => Promise<unknown> }[] = [
  { word: 'Shelf', ready: (page) => page.locator('.shelf li').first().waitFor() },
  { word: 'Plants', ready: (page) => page.getByLabel('Strength').first().waitFor() },
  { word: 'Feed', ready: (page) => page.locator('.answer').waitFor() },
  { word: 'Sink', ready: (page) => page.getByRole('button', { name: /^Start mixing/ }).waitFor() },
  { word: 'Buy', ready: (page) => page.getByRole('button', { name: /^Look for what to buy/ }).waitFor() },
  { word: 'Year', ready: (page) => page.locator('.answer').waitFor() },
  { word: 'Files', ready: (page) => page.getByRole('button', { name: 'Write out all' }).waitFor() },
];

export const goTo = async (page: Page, word: string): Promise<void> => {
  await page.locator('nav').getByRole('button', { name: word, exact: true }).click();
  await PLACES.find((place) => place.word === word)!.ready(page);
};
