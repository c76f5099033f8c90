import { describe, expect, it } from 'vitest';
import { readSlips } from '../../src/advice/slips/read-slips.js';
import type { Slip, ToldSlips } from '../../src/advice/slips/types.js';
import { SPOKEN_OF } from './batch-spoken-of.js';
import { OTHERS_SENTENCES, SLIP_SENTENCES } from './slip-sentences.js';

describe('what a grower says he did', () => {
  it.each([...SLIP_SENTENCES, ...OTHERS_SENTENCES])('%s', (sentence, reading) => {
    const read = readSlips(sentence, SPOKEN_OF);
    const told = read.ok ? shown(read.value) : read.problems.map((p) => `? ${p.found}; ${p.expected}. ${p.fix}`).join();
    if (typeof reading === 'string') expect(told).toBe(reading);
    else {
      expect(told).toMatch(/^\?/);
      expect(told).toMatch(reading);
    }
  });

  it('every form that a refusal shows is understood', () => {
    const read = readSlips('blub', SPOKEN_OF);
    const fix = read.ok ? '' : read.problems[0]!.fix;
    const shownForms = [...fix.matchAll(/"([^"]+)"/g)].map(([, form]) => form!);
    expect(shownForms.some((form) => form.includes('instead of'))).toBe(true);
    for (const form of shownForms) expect(readSlips(form, SPOKEN_OF), form).toMatchObject({ ok: true });
  });

  it('shares of the ways are one together', () => {
    for (const [sentence] of [...SLIP_SENTENCES, ...OTHERS_SENTENCES]) {
      const read = readSlips(sentence, SPOKEN_OF);
      if (read.ok) expect(read.value.ways.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    }
  });
});

const shown = ({ ways }: ToldSlips): string =>
  ways.map(({ slips }) => (slips.length === 0 ? 'as planned' : slips.map(slipShown).join(', '))).join(' | ');

function slipShown(slip: Slip): string {
  switch (slip.kind) {
    case 'item': {
      const { product, planned } = SPOKEN_OF.items[slip.item]!;
      return `${product.id} ${Number((slip.factor * planned).toFixed(2))}`;
    }
    case 'litres':
      return `${Number(slip.litres.toFixed(3))} L`;
    case 'water':
      return `water ${slip.id}`;
    case 'topping':
      return 'not topped up';
    default:
      return slip satisfies never;
  }
}
