import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { appendLines, changeText } from '../../src/files/index.js';
import { home, script, started, strays } from './world.js';

const DEATHS = 150;

const wait = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** A seeded wait between 0 and `most` milliseconds. */
function waits(seed: number, most: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1103515245 + 12345) % 2 ** 31;
    return (state / 2 ** 31) * most;
  };
}

describe('a process that is killed', () => {
  it(`loses no line that it acknowledged, and leaves no half one, in ${DEATHS} deaths`, {
    timeout: 240_000,
  }, async () => {
    const folder = home();
    const path = join(folder, 'journal.csv');
    const isWhole = (line: string) => /^\d+-\d+,x{500},end$/.test(line);
    const lines = { head: ['id,what,end'], isWhole };
    const adds = await script(
      folder,
      'adds.mjs',
      `const [run] = process.argv.slice(2);
       const isWhole = (line) => /^\\d+-\\d+,x{500},end$/.test(line);
       for (let i = 0; ; i += 1) {
         const id = run + '-' + i;
         files.appendLines('journal.csv', { head: ['id,what,end'], lines: [id + ',' + 'x'.repeat(500) + ',end'], isWhole }, ${JSON.stringify(folder)});
         process.stdout.write(id + '\\n');
       }`,
    );
    const next = waits(7, 40);
    const acknowledged: string[] = [];
    // two at a time, so that one also dies while the other waits for its lock
    for (let run = 0; run < DEATHS; run += 2) {
      const both = [started(adds, [`${run}`]), started(adds, [`${run + 1}`])];
      await Promise.all(both.map(({ speaks }) => speaks));
      await wait(next());
      for (const { child } of both) {
        child.kill('SIGKILL');
        await wait(next() / 10);
      }
      await Promise.all(both.map(({ ended }) => ended));
      for (const { said } of both) acknowledged.push(...said().split('\n').slice(0, -1));
    }
    appendLines(path, { ...lines, lines: [`999-0,${'x'.repeat(500)},end`] }, folder);
    const [head, ...rest] = readFileSync(path, 'utf8').split('\n').slice(0, -1);
    expect(head).toBe('id,what,end');
    expect(rest.filter((line) => !isWhole(line))).toEqual([]);
    const there = new Set(rest.map((line) => line.slice(0, line.indexOf(','))));
    expect(there.size).toBe(rest.length);
    expect(acknowledged.filter((id) => !there.has(id))).toEqual([]);
    expect(acknowledged.length).toBeGreaterThan(DEATHS);
    expect(strays(folder)).toEqual([]);
  });

  it(`leaves a shelf whole, in ${DEATHS} deaths`, async () => {
    const folder = home();
    const path = join(folder, 'shelf.csv');
    const text = (n: number) => `id,n\na,${n}\n${'#'.repeat(20_000)}\n`;
    writeFileSync(path, text(0));
    const saves = await script(
      folder,
      'saves.mjs',
      `process.stdout.write('begun');
       for (;;) files.changeText('shelf.csv', (text) => {
         const next = Number(/a,(\\d+)/.exec(text)[1]) + 1;
         return text.replace(/a,\\d+/, 'a,' + next);
       }, ${JSON.stringify(folder)});`,
    );
    const next = waits(11, 40);
    let last = 0;
    for (let run = 0; run < DEATHS; run += 2) {
      const both = [started(saves, []), started(saves, [])];
      await Promise.all(both.map(({ speaks }) => speaks));
      await wait(next());
      for (const { child } of both) child.kill('SIGKILL');
      await Promise.all(both.map(({ ended }) => ended));
      const now = readFileSync(path, 'utf8');
      const n = Number(/a,(\d+)/.exec(now)?.[1]);
      expect(now).toBe(text(n));
      expect(n).toBeGreaterThanOrEqual(last);
      last = n;
    }
    expect(last).toBeGreaterThan(DEATHS);
    changeText(path, (now) => now.replace(/a,\d+/, 'a,0'), folder);
    expect(strays(folder)).toEqual([]);
  });
});

describe('two processes at once', () => {
  it('append 500 lines each: a thousand lines', async () => {
    const folder = home();
    const adds = await script(
      folder,
      'adds.mjs',
      `const [who] = process.argv.slice(2);
       for (let i = 0; i < 500; i += 1) {
         files.appendLines('journal.csv', { head: ['id'], lines: [who + i], isWhole: () => true }, ${JSON.stringify(folder)});
       }`,
    );
    const both = [started(adds, ['a']), started(adds, ['b'])];
    expect(await Promise.all(both.map(({ ended }) => ended))).toEqual([0, 0]);
    const lines = readFileSync(join(folder, 'journal.csv'), 'utf8').split('\n').slice(0, -1);
    expect(lines).toHaveLength(1001);
    expect(new Set(lines).size).toBe(1001);
    expect(lines[0]).toBe('id');
  });

  it('save 100 times each: no save is lost', async () => {
    const folder = home();
    writeFileSync(join(folder, 'shelf.csv'), 'a,0\n');
    const saves = await script(
      folder,
      'saves.mjs',
      `for (let i = 0; i < 100; i += 1) {
         files.changeText('shelf.csv', (text) => text.replace(/\\d+/, (n) => Number(n) + 1), ${JSON.stringify(folder)});
       }`,
    );
    const both = [started(saves, []), started(saves, [])];
    expect(await Promise.all(both.map(({ ended }) => ended))).toEqual([0, 0]);
    expect(readFileSync(join(folder, 'shelf.csv'), 'utf8')).toBe('a,200\n');
  });
});
