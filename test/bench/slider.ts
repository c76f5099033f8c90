/**
 * A slider that moves on a shelf of thirty products, in pairs: from the move to the new figures on the page, beside the same mix in Node; how
 * long after its rest the doses are there; the long tasks of the page meanwhile, when it starts and when its places are opened; and how soon
 * a first visit shows its answer. On two shelves. `npm run bench:page`.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { nearQuestion } from '../../src/page/work/near.js';
import { launch } from '../page/browser.js';
import { builtPage, visit } from '../page/built.js';
import { goTo, PLACES } from '../page/places.js';
import { gatheredShelf } from './invented-shelf.js';
import { longest, type Task, tasksWhile } from './main-thread.js';

const PAIRS = 40;
const VISITS = 7;
const SHELVES = {
  'the catalog’s invented products': readFileSync(join(process.cwd(), 'catalog/products.csv'), 'utf8'),
  'thirty as somebody gathers them': gatheredShelf(),
};
const BENCH =
  'water: rain\npen: EC\nkit: { scale: 0.01 g, syringe: 1 mL }\nfeeds:\n  moth: { plants: phalaenopsis, medium: bark, batch: 4 L }\n';

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
const ms = (times: readonly number[]): string => `${median(times).toFixed(1)} ms`;
const tell = (line: string): void => void process.stdout.write(`${line}\n`);

/** Runs in the page: ms from the move to the figures of its place, and to the frame that shows them. */
const move = `(percent) => new Promise((done) => {
  const slider = document.querySelector('.slider input');
  const aim = () => document.querySelector('.bars').closest('article').textContent;
  const before = aim();
  const seen = () => {
    if (aim() === before || document.querySelector('.slider output').textContent !== percent + ' %') return;
    watch.disconnect();
    const written = performance.now() - since;
    requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => done([written, performance.now() - since]); port2.postMessage(0); });
  };
  const watch = new MutationObserver(seen);
  watch.observe(document.querySelector('main'), { subtree: true, childList: true, attributes: true, characterData: true });
  const since = performance.now();
  slider.value = percent;
  slider.dispatchEvent(new Event('input', { bubbles: true }));
})`;

const built = builtPage();
const browser = await launch();
try {
  await firstVisits(browser);
  for (const [name, shelf] of Object.entries(SHELVES)) await slide(browser, name, shelf);
} finally {
  await browser.close();
  built.remove();
}

/** From the start of the visit to the answer in the page, and to the frame that shows it. */
async function firstVisits(from: Browser): Promise<void> {
  const shown: number[] = [];
  const painted: number[] = [];
  const tasks: Task[] = [];
  for (let i = 0; i < VISITS; i += 1) {
    const context = await from.newContext({ viewport: { width: 390, height: 844 } });
    await context.addInitScript(`new MutationObserver((_, watch) => {
      if (!document.querySelector('.answer')) return;
      watch.disconnect();
      globalThis.shown = performance.now();
      requestAnimationFrame(() => setTimeout(() => { globalThis.painted = performance.now(); }));
    }).observe(document, { subtree: true, childList: true })`);
    const page = await context.newPage();
    tasks.push(
      ...(await tasksWhile(from, page, async () => {
        await page.goto(built.url);
        await page.waitForTimeout(2500);
      })),
    );
    shown.push((await page.evaluate('shown')) as number);
    painted.push((await page.evaluate('painted')) as number);
    await context.close();
  }
  tell(`first visit: answer in the page after ${ms(shown)}, painted after ${ms(painted)} (medians of ${VISITS})`);
  tell(`  tasks: ${longest(tasks)}`);
}

async function slide(from: Browser, name: string, shelf: string): Promise<void> {
  const texts = { 'bench.yaml': BENCH, 'shelf.csv': shelf };
  const { page } = await visit(from, built.url, { viewport: { width: 1280, height: 900 } });
  page.setDefaultTimeout(120_000);
  await take(page, texts);
  const written: number[] = [];
  const painted: number[] = [];
  const inNode: number[] = [];
  const work: number[] = [];
  const moving = await tasksWhile(from, page, async () => {
    for (let i = 0; i <= PAIRS; i += 1) {
      const percent = 20 + 5 * ((7 * i) % 27);
      const moved = (await page.evaluate(`(${move})(${percent})`)) as [number, number];
      const since = performance.now();
      const before = process.cpuUsage();
      await nearQuestion({ texts, feed: null, tuned: { way: 'given', strength: `${percent} %` } });
      const asked = performance.now() - since;
      const { user, system } = process.cpuUsage(before);
      // the first of both is spent on getting warm
      if (i === 0) continue;
      written.push(moved[0]);
      painted.push(moved[1]);
      inNode.push(asked);
      work.push((user + system) / 1000);
    }
  });
  const rests: number[] = [];
  const resting = await tasksWhile(from, page, async () => {
    for (const percent of [60, 90, 120]) {
      await page.evaluate(`(${move})(${percent})`);
      const since = performance.now();
      await page.locator('[aria-busy=false] .answer').waitFor();
      rests.push(performance.now() - since);
    }
  });
  const places = await tasksWhile(from, page, async () => {
    for (const { word } of PLACES) {
      await page.locator('nav').getByRole('button', { name: word, exact: true }).click();
      await page.waitForTimeout(600);
    }
  });
  const ratios = written.map((time, i) => time / inNode[i]!);
  tell(name);
  tell(
    `  a move: figures in the page after ${ms(written)}, painted after ${ms(painted)}; in Node ${ms(inNode)}, ratio ${median(ratios).toFixed(2)} (medians of ${PAIRS} pairs)`,
  );
  const ofMain = moving.reduce((sum, { busy }) => sum + busy, 0) / (PAIRS + 1);
  tell(`  at work for a move: main thread ${ofMain.toFixed(1)} ms, the mix in Node ${ms(work)}`);
  tell(`  doses after the last move: ${ms(rests)} (median of ${rests.length})`);
  tell(`  tasks while it moves: ${longest(moving)}`);
  tell(`  tasks while the doses come: ${longest(resting)}`);
  tell(`  tasks while every place is opened: ${longest(places)}`);
  await page.context().close();
}

async function take(page: Page, texts: Record<string, string>): Promise<void> {
  await goTo(page, 'Files');
  await page
    .locator('input[type=file]')
    .setInputFiles(
      Object.entries(texts).map(([name, text]) => ({ name, buffer: Buffer.from(text), mimeType: 'text/plain' })),
    );
  await page.getByRole('button', { name: 'Take these' }).click();
  await page.locator('nav').getByRole('button', { name: 'Feed' }).click();
  await page.locator('[aria-busy=false] .answer').waitFor();
  // wakes the worker that follows
  await page.getByRole('slider', { name: 'Strength' }).focus();
  await page.waitForTimeout(2000);
}
