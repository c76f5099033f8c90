import { describe, expect, it } from 'vitest';
import type { Infeasible, Optimal, Uncertified } from '../../solver/index.js';
import {
  type FewestSettled,
  type FeedSettled,
  type FewSettled,
  Proof,
  type PurchaseFound,
  type PurchaseSettled,
} from '../../src/feed/proof.js';
import { proofSentence } from '../../src/report/says/proof.js';

const optimal = (objective: number, boundBy: Optimal['boundBy'], bound = objective): Optimal => ({
  verdict: 'optimal',
  objective,
  bound,
  gap: 0,
  violation: 0,
  x: {},
  y: {},
  engine: 'an engine',
  boundBy,
});
const impossible: Infeasible = { verdict: 'infeasible', ray: {}, engine: 'an engine', cases: [] };
const onItsWord: Uncertified = { verdict: 'uncertified', claim: 'integer-infeasible', why: 'too many cases' };

const anyNumber: FeedSettled = {
  question: 'feed',
  goal: 'cheapest',
  unit: 'EUR/L',
  ec: null,
  stages: [{ goal: 'cost', verdict: optimal(1, 'multipliers') }],
};

const few = (choice: FewSettled['choice'], stages: FewSettled['stages'] = []): FewSettled => ({
  question: 'at most',
  goal: 'cheapest',
  unit: 'EUR/L',
  ec: null,
  atMost: 2,
  choice,
  stages,
  any: stages.length === 0 ? anyNumber : null,
});

describe('a proof', () => {
  it('cannot be made by hand, nor changed: types and the frozen object refuse', () => {
    const proof = Proof.of({
      question: 'feed',
      goal: 'cheapest',
      unit: 'EUR/L',
      ec: null,
      stages: [{ goal: 'cost', verdict: onItsWord }],
    });
    // @ts-expect-error only Proof.of makes one
    const forged: Proof = { ...proof, verdict: 'optimal' };
    expect(forged).not.toBeInstanceOf(Proof);
    expect(() => {
      // @ts-expect-error a verdict is read only
      proof.verdict = 'optimal';
    }).toThrow(TypeError);
    expect(proof.verdict).toBe('uncertified');
  });

  it('of the fewest products leans on the number and on the purchase, whichever is weaker', () => {
    const found = (boundBy: PurchaseFound['boundBy']): PurchaseFound => ({
      ...{ found: true, objective: 12, bound: 12, gap: 0, violation: 0, engine: 'an engine' },
      boundBy,
    });
    const asked = {
      ...{ question: 'fewest products', currency: 'EUR', feeds: 2, products: ['a', 'b'], spend: 12, overCap: [] },
      ...{ number: found('cases'), purchase: found('multipliers') },
    } satisfies FewestSettled;
    const told = (changed: Partial<FewestSettled>): [string, string] => {
      const proof = Proof.of({ ...asked, ...changed });
      return [proof.verdict, proofSentence(proof)];
    };
    const [which, what] = ['the fewest products that serve all feeds', '2, a, b, for 12 EUR'];
    expect(told({})).toEqual(['optimal', `${which}: ${what}`]);
    expect(told({ number: null })).toEqual(['optimal', `${which}: ${what}`]);
    expect(told({ number: found('search') })).toEqual(['uncertified', `${which} (on the search’s word): ${what}`]);
    expect(told({ purchase: found('search') })).toEqual(['uncertified', `${which} (on the search’s word): ${what}`]);
    expect(told({ purchase: found(null) })).toEqual(['uncertified', `${which} (not proved): ${what}`]);
    expect(told({ number: null, overCap: ['moss'] })).toEqual(['uncertified', `${which} (not proved): ${what}`]);
  });

  it('of few products is bounded over every choice, not by the products chosen', () => {
    const proof = Proof.of(
      few(
        [{ goal: 'cost', verdict: optimal(3, 'cases', 2.9) }],
        [{ goal: 'cost', verdict: optimal(3, 'multipliers') }],
      ),
    );
    expect(proof).toMatchObject({ verdict: 'optimal', figures: { found: 3, bound: 2.9 } });
    expect(proof.figures.gap).toBeCloseTo(0.1 / 3, 12);
    expect(proofSentence(proof)).toBe(
      'no cheaper mix of at most 2 products exists within these limits: bound 2.90, found 3.00 EUR/L (each choice of products proved)',
    );
  });

  it('is none where only a search says so', () => {
    const found = Proof.of(
      few([{ goal: 'cost', verdict: optimal(3, 'search') }], [{ goal: 'cost', verdict: optimal(3, 'multipliers') }]),
    );
    expect(found.verdict).toBe('uncertified');
    expect(proofSentence(found)).toContain('the search’s own word for the other choices: no arithmetic proves it');
    const none = Proof.of(few([{ goal: 'cost', verdict: onItsWord }]));
    expect(none.verdict).toBe('uncertified');
    expect(proofSentence(none)).toBe(
      'with any number of products a mix exists; of every choice of at most 2, the search found none (its own word: no arithmetic proves it)',
    );
    expect(Proof.of(few([{ goal: 'cost', verdict: impossible }])).verdict).toBe('infeasible');
    const packs: PurchaseSettled = {
      question: 'purchase',
      currency: 'EUR',
      weeks: 26,
      way: { kind: 'cheapest' },
      near: null,
      answer: { found: false, none: true, byArithmetic: false, engine: 'highs' },
      overCap: [],
      reserve: null,
    };
    expect(Proof.of(packs).verdict).toBe('uncertified');
    expect(proofSentence(Proof.of(packs))).toContain('its own word: no arithmetic proves it');
  });

  it('is none of a mix that is over its EC cap', () => {
    const ec = { touches: { at: 'aims' }, round: 6, keeps: false } as const;
    const proof = Proof.of({
      question: 'feed',
      goal: 'cheapest',
      unit: 'EUR/L',
      ec,
      stages: [{ goal: 'cost', verdict: optimal(1, 'multipliers') }],
    });
    expect(proof.verdict).toBe('uncertified');
    expect(proofSentence(proof)).toContain('over the cap after 6 rounds');
  });
});
