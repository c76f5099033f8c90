import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOG_FILES, type CatalogTexts, readBench, readCatalog, readProducts } from '../../src/catalog/index.js';
import { findNamed, type Named } from '../../src/catalog/names.js';
import { SAFETY_FILES, readSafety } from '../../src/catalog/hazards.js';
import { PRACTICE_FILES } from '../../src/catalog/practice.js';
import { resolveProgramme } from '../../src/programme/resolve.js';
import { PHASES } from '../../src/programme/programme.js';
import { clean } from './told.js';

const root = new URL('../../', import.meta.url);
const file = (name: string) => readFileSync(new URL(name, root), 'utf8');
const texts = Object.fromEntries(CATALOG_FILES.map((name) => [name, file(`catalog/${name}.csv`)])) as CatalogTexts;
const safetyTexts = { hazards: file('catalog/hazards.csv'), statements: file('catalog/statements.csv') };

describe('the shipped catalog', () => {
  it('reads without a single problem', () => {
    const catalog = clean(readCatalog(texts));
    for (const name of CATALOG_FILES) expect(catalog[name].length).toBeGreaterThan(0);
  });

  it('has no files besides', () => {
    const names = readdirSync(new URL('catalog', root)).filter((name) => name.endsWith('.csv'));
    expect(names.sort()).toEqual(
      [...CATALOG_FILES, ...SAFETY_FILES, ...PRACTICE_FILES, 'can-limits', 'references']
        .map((name) => `${name}.csv`)
        .sort(),
    );
  });

  it('gives every row a source and a grade of evidence', () => {
    const catalog = { ...clean(readCatalog(texts)), ...clean(readSafety(safetyTexts)) };
    let sourced = 0;
    for (const name of [...CATALOG_FILES, ...SAFETY_FILES]) {
      for (const row of catalog[name] as { source?: string; evidence?: string }[]) {
        if (row.source === undefined) continue;
        expect(row, JSON.stringify(row)).toMatchObject({
          source: expect.stringMatching(/\S/),
          evidence: expect.not.stringMatching(/^grower$/),
        });
        sourced += 1;
      }
    }
    expect(sourced).toBeGreaterThan(200);
  });

  it.each([
    ['plants', 'orchids', 'phalaenopsis'],
    ['plants', 'orchid', 'phalaenopsis'],
    ['plants', 'Moth Orchid', 'phalaenopsis'],
    ['plants', 'nobile', 'dendrobium-nobile'],
    ['plants', 'Dendrobium nobile', 'dendrobium-nobile'],
    ['plants', 'catasetums', 'deciduous-orchid'],
    ['media', 'lava rock', 'clay'],
    ['media', 'Clay balls', 'clay'],
    ['media', 'clay pebbles', 'clay'],
    ['media', 'expanded clay', 'clay'],
  ] as const)('knows among its %s what people type: %s', (table, typed, id) => {
    const rows: readonly Named[] = clean(readCatalog(texts))[table];
    expect(clean(findNamed(typed, rows, 'a name', {})).id).toBe(id);
  });

  it('resolves a programme for every plant group in each of its media and phases', () => {
    const catalog = clean(readCatalog(texts));
    for (const plants of catalog.plants) {
      for (const medium of plants.media)
        for (const phase of PHASES) clean(resolveProgramme(catalog, plants.id, medium, phase));
    }
  });

  it.each(readdirSync(new URL('examples', root)))('serves the example %s', (name) => {
    const catalog = clean(readCatalog(texts));
    clean(readBench(file(`examples/${name}/bench.yaml`), 'bench.yaml', catalog));
    clean(readProducts(file(`examples/${name}/shelf.csv`), 'shelf.csv'));
  });
});
