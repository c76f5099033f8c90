/**
 * A slider that moves on a shelf of thirty-one products, in pairs: from the move to the new figures on the page, beside the same question in
 * Node; and the long tasks of the page meanwhile. `npm run bench:page`.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { quickQuestion } from '../../src/page/work/feed.js';
import { launch } from '../page/browser.js';
import { builtPage, visit } from '../page/built.js';
import { goTo } from '../page/places.js';

const PAIRS = 21;
const root = process.cwd();
const shelf = readFileSync(join(root, 'catalog/products.csv'), 'utf8');
const bench =
  'water: rain\npen: EC\nkit: { scale: 0.01 g, syringe: 1 mL }\nfeeds:\n  moth: { plants: phalaenopsis, medium: bark, batch: 4 L }\n';
const texts = { 'bench.yaml': bench, 'shelf.csv': shelf };

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;

const built = builtPage();
const browser = await launch();
const { page } = await visit(browser, built.url, { viewport: { width: 1280, height: 900 } });
page.setDefaultTimeout(120_000);
await goTo(page, 'Files');
await page
  .locator('input[type=file]')
  .setInputFiles(
    Object.entries(texts).map(([name, text]) => ({ name, buffer: Buffer.from(text), mimeType: 'text/plain' })),
  );
await page.getByRole('button', { name: 'Take these' }).click();
await page.locator('nav').getByRole('button', { name: 'Feed' }).click();
await page.locator('[aria-busy=false] .answer').waitFor();
await page.evaluate(
  'globalThis.long = []; new PerformanceObserver((list) => { for (const entry of list.getEntries()) globalThis.long.push(entry.duration); }).observe({ type: "longtask" })',
);

const inPage: number[] = [];
const inNode: number[] = [];
for (let i = 0; i < PAIRS; i += 1) {
  const strength = 50 + 5 * (i % 10) + (i >= 10 ? 50 : 0);
  const moved = (await page.evaluate(`new Promise((done) => {
    const slider = document.querySelector('.slider input');
    const since = performance.now();
    const seen = () => {
      if (document.querySelector('.old') || document.querySelector('.slider output').textContent !== '${strength} %') return;
      watch.disconnect();
      done(performance.now() - since);
    };
    const watch = new MutationObserver(seen);
    watch.observe(document.querySelector('main'), { subtree: true, childList: true, attributes: true, characterData: true });
    slider.value = ${strength};
    slider.dispatchEvent(new Event('input', { bubbles: true }));
  })`)) as number;
  const since = performance.now();
  await quickQuestion({ texts, feed: null, tuned: { way: 'given', strength: `${strength} %` } });
  const asked = performance.now() - since;
  // the first of both is spent on getting warm
  if (i === 0) continue;
  inPage.push(moved);
  inNode.push(asked);
}
const long = (await page.evaluate('globalThis.long')) as number[];
const ratios = inPage.map((time, i) => time / inNode[i]!);
process.stdout.write(
  [
    `page ${Math.round(median(inPage))} ms, Node ${Math.round(median(inNode))} ms, ratio ${median(ratios).toFixed(2)} (medians of ${PAIRS - 1} pairs)`,
    `long tasks of the page: ${long.length}, the longest ${Math.round(Math.max(0, ...long))} ms`,
    '',
  ].join('\n'),
);
await browser.close();
built.remove();
