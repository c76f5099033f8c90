import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolderProblems, writeNew } from '../../src/files/index.js';
import { Refusal } from '../../src/problem.js';
import { home, script, started, strays } from './world.js';

const FILES = [
  { name: 'schema.json', content: '{}\n' },
  { name: 'shelf.csv', content: 'id\n'.repeat(20_000) },
  { name: 'bench.yaml', content: 'water: rain\n'.repeat(5_000) },
];
const NAMES = FILES.map(({ name }) => name);
const whole = (folder: string): boolean =>
  FILES.every(
    ({ name, content }) => existsSync(join(folder, name)) && readFileSync(join(folder, name), 'utf8') === content,
  );

describe('new files', () => {
  it('come into a folder that is made, and into one that is there', () => {
    const folder = home();
    mkdirSync(join(folder, 'there'));
    writeFileSync(join(folder, 'there/notes'), 'mine');
    for (const name of ['new', 'there']) writeNew(name, FILES, folder);
    expect(readdirSync(join(folder, 'new')).sort()).toEqual([...NAMES].sort());
    expect(readdirSync(join(folder, 'there')).sort()).toEqual([...NAMES, 'notes'].sort());
    expect(whole(join(folder, 'new')) && whole(join(folder, 'there'))).toBe(true);
    expect(readdirSync(folder).sort()).toEqual(['new', 'there']);
  });

  it.each(NAMES)('never come over %s, and then none does', (name) => {
    const folder = home();
    writeFileSync(join(folder, name), 'mine');
    expect(() => writeNew('.', FILES, folder)).toThrow(Refusal);
    expect(newFolderProblems('.', NAMES, folder).map(({ code, where }) => `${code} ${where.file}`)).toEqual([
      `is-there ${name}`,
    ]);
    expect(readdirSync(folder)).toEqual([name]);
    expect(readFileSync(join(folder, name), 'utf8')).toBe('mine');
  });

  it('of two processes at once, one comes whole', async () => {
    const folder = home();
    mkdirSync(join(folder, 'even'));
    const path = await script(
      folder,
      'new.mjs',
      `const [who] = process.argv.slice(2);
       const texts = ${JSON.stringify(NAMES)}.map((name) => ({ name, content: who.repeat(50_000) }));
       let won = 0;
       for (let i = 0; i < 40; i += 1) {
         // one in two is there already, with something else in it
         try { files.writeNew('b' + i, texts, ${JSON.stringify(folder)}); won += 1; } catch {}
       }
       process.stdout.write('won ' + won);`,
    );
    for (let i = 0; i < 40; i += 2) writeNew(`b${i}`, [{ name: 'notes', content: 'mine' }], folder);
    const both = [started(path, ['a']), started(path, ['b'])];
    await Promise.all(both.map(({ ended }) => ended));
    const won = both.map(({ said }) => Number(/won (\d+)/.exec(said())?.[1]));
    expect(won[0]! + won[1]!).toBe(40);
    for (let i = 0; i < 40; i += 1) {
      const texts = NAMES.map((name) => readFileSync(join(folder, `b${i}`, name), 'utf8'));
      expect(new Set(texts).size).toBe(1);
      expect(strays(join(folder, `b${i}`))).toEqual([]);
    }
    expect(strays(folder)).toEqual([]);
  });

  it('are there whole or not at all after 30 deaths, and the next attempt is not hindered', {
    timeout: 120_000,
  }, async () => {
    const folder = home();
    const path = await script(
      folder,
      'new.mjs',
      `const [first] = process.argv.slice(2);
       process.stdout.write('begun');
       for (let i = 0; i < 15; i += 1) files.writeNew(first + '-' + i, ${JSON.stringify(FILES)}, ${JSON.stringify(folder)});`,
    );
    let deaths = 0;
    for (let run = 0; run < 30; run += 2) {
      const both = [`new-${run}`, `there-${run}`].map((first) => {
        // folders that are there already take the other way
        if (first.startsWith('there')) for (let i = 0; i < 15; i += 1) mkdirSync(join(folder, `${first}-${i}`));
        return started(path, [first]);
      });
      await Promise.all(both.map(({ speaks }) => speaks));
      await new Promise((done) => setTimeout(done, (run * 7) % 23));
      for (const { child } of both) child.kill('SIGKILL');
      await Promise.all(both.map(({ ended }) => ended));
      deaths += 2;
    }
    let begun = 0;
    for (const name of readdirSync(folder).filter((one) => /^(?:new|there)-/.test(one))) {
      const place = join(folder, name);
      if (whole(place)) begun += 1;
      else if (readdirSync(place).length > 0 || name.endsWith('-14')) {
        // no file is half there, and without the last there is no bench
        for (const one of readdirSync(place).filter((file) => NAMES.includes(file)))
          expect(readFileSync(join(place, one), 'utf8')).toBe(FILES.find((file) => file.name === one)!.content);
        expect(existsSync(join(place, 'bench.yaml'))).toBe(false);
        writeNew(name, FILES, folder);
        expect(whole(place)).toBe(true);
      }
      if (!whole(place)) expect(strays(place)).toEqual([]);
    }
    expect(begun).toBeGreaterThan(20);
    expect(deaths).toBe(30);
  });
});
