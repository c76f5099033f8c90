import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOG_FILES } from '../../src/catalog/index.js';
import { SAFETY_FILES } from '../../src/catalog/hazards.js';
import { PRACTICE_FILES } from '../../src/catalog/practice.js';
import { NO_SOURCE, readReferences, unreferenced } from '../../src/catalog/references.js';
import { clean } from './told.js';

const file = (name: string) => readFileSync(new URL(`../../catalog/${name}.csv`, import.meta.url), 'utf8');
const references = clean(readReferences(file('references')));
const files = [...CATALOG_FILES, ...SAFETY_FILES, ...PRACTICE_FILES, 'can-limits'];

/** Rows of a file by the names in its header. */
function rowsOf(name: string): Record<string, string>[] {
  const [header = '', ...lines] = file(name)
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'));
  const names = header.split(',');
  return lines.map((line) => {
    const cells = [...line.matchAll(/(?:"((?:[^"]|"")*)"|([^,]*))(?:,|$)/g)].map(([, quoted, bare]) => quoted ?? bare);
    return Object.fromEntries(names.map((key, i) => [key, cells[i] ?? '']));
  });
}

describe('the references of the catalog', () => {
  it('hold every key that a row points to; no row is without one, or graded on memory alone', () => {
    expect(files.flatMap((name) => unreferenced(file(name), `catalog/${name}.csv`, references))).toEqual([]);
  });

  it('are all pointed to, and say in full what they are', () => {
    const used = new Set(files.flatMap((name) => rowsOf(name).flatMap((row) => (row.refs ?? '').split('; '))));
    expect(references.map(({ key }) => key).filter((key) => !used.has(key))).toEqual([]);
    for (const { key, citation } of references) expect(citation, key).toMatch(/^.{25,}$/);
    expect(references.slice(0, NO_SOURCE.length).map(({ key }) => key)).toEqual(NO_SOURCE);
  });

  it('grade every row in one of five ways', () => {
    const grades = new Set(files.flatMap((name) => rowsOf(name).map((row) => row.evidence)));
    expect([...grades].sort()).toEqual(['from memory, unchecked', 'grower practice', 'handbook', 'invented', 'trial']);
  });

  it('are refused where a key is not there, none is given, or memory is called a trial', () => {
    const codes = (refs: string, evidence: string) =>
      unreferenced(`id,refs,evidence\na,${refs},${evidence}\n`, 'x.csv', references).map(({ code }) => code);
    expect(codes('', 'invented')).toEqual(['refs-missing']);
    expect(codes('Nobody1900', 'trial')).toEqual(['refs-unknown']);
    expect(codes('memory', 'trial')).toEqual(['refs-unread']);
    expect(codes('memory; Wang2008', 'trial')).toEqual([]);
  });

  it('call a trial only what a trial that the row cites varied by itself', () => {
    const rows = ['bands', 'rules', 'factors'].flatMap(rowsOf).filter((row) => row.evidence === 'trial');
    expect(rows.length).toBeGreaterThan(5);
    const inflated = rows.filter((row) => {
      const about = row.nutrient ?? /^[A-Za-z0-9]+/.exec(row.rule ?? '')?.[0] ?? '';
      return !row.refs?.split('; ').some((key) => VARIED[key]?.includes(about));
    });
    expect(inflated).toEqual([]);
  });

  it('take no figure of a trial that held it, or let everything rise together, for one', () => {
    const grade = (plants: string, nutrient: string) =>
      rowsOf('bands').find((row) => row.plants === plants && row.nutrient === nutrient)?.evidence;
    // media were tried, not magnesium (Amberger-Ochsenbauer 2010); N, P and K together, Ca and Mg held (Tanaka et al. 1988)
    expect(['phalaenopsis', 'cattleya'].map((plants) => grade(plants, 'Mg'))).not.toContain('trial');
    expect(['Ca', 'P', 'K'].map((nutrient) => grade('cattleya', nutrient))).not.toContain('trial');
    // 0.05 and 0.02 mg/L are Hoagland's figures; the aims are not
    expect(['Zn', 'Cu'].map((nutrient) => grade('*', nutrient))).not.toContain('handbook');
    // salt of the water was varied, not of the can (Wang 1998)
    const cap = rowsOf('rules').find((row) => row.plants === 'phalaenopsis' && row.rule?.startsWith('EC'));
    expect(cap?.evidence).not.toBe('trial');
  });
});

/** What each trial varied by itself, from its abstract: nutrients, the form of nitrogen, or the strength of the whole. */
const VARIED: Readonly<Record<string, readonly string[]>> = {
  Wang2007K: ['K'],
  WangTsai: ['K'],
  CitoAlves2024: ['Ca'],
  PhalDLI2015: ['N', 'EC'],
  Bichsel2008: ['N', 'P', 'K'],
  An2012: ['N', 'K'],
  AnthuriumN2012: ['N'],
  HRJ2009: ['N', 'P', 'K'],
  Shim2021: ['EC'],
  Wang2008: ['NO3', 'NH4'],
  Mantovani2018: ['NO3', 'NH4'],
  Karimi2022: ['NO3', 'NH4'],
  Ruamrungsri2014: ['NO3', 'NH4'],
  Panjama2018: ['NO3', 'NH4'],
  LaeliaRBHO2017: ['NO3', 'NH4'],
};
