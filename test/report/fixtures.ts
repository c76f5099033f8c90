import type { AssessResult } from '../../src/advice/types.js';
import { type WithoutUnits, litres } from '../../src/units/index.js';
import type { Optimal } from '../../solver/index.js';
import type { LinearRule } from '../../src/programme/rule.js';
import { Proof } from '../../src/feed/proof.js';
import type { NutrientLimit } from '../../src/feed/limits.js';
import type { BlendCannot, BlendMade, ElementLine, FeedHeader, Mix, ReachResult } from '../../src/feed/results.js';
import { mgPerLitre, milliSiemensPerCm } from '../../src/units/index.js';

/** Invented results, only to see how reports are set. */
export const header: FeedHeader = {
  name: 'moss',
  plants: 'pleurothallid',
  medium: 'sphagnum',
  phase: 'growth',
  strength: '80 %',
  strengthFactor: 0.8,
  batchLitres: litres(4),
  currency: 'EUR',
};

const line = (
  element: ElementLine['element'],
  mg: number,
  min: number | null,
  aim: number | null,
  max: number | null,
): WithoutUnits<ElementLine> => ({
  element,
  mgPerLitre: mg,
  low: mg,
  high: mg,
  min,
  aim,
  max,
});

const ammonium: LinearRule = {
  kind: 'linear',
  text: 'NH4 <= 0.25 * N',
  terms: { 'NH4-N': 1, N: -0.25 },
  upper: 0,
  from: { owner: 'programme', medium: 'sphagnum' },
};
const calcium: LinearRule = {
  kind: 'linear',
  text: 'Ca >= 2 * Mg',
  terms: { Ca: 1, Mg: -2 },
  lower: 0,
  from: { owner: 'you' },
};

/** An end of an element's band. */
export const bandEnd = (
  nutrient: NutrientLimit['nutrient'],
  end: NutrientLimit['end'],
  bound: number,
): NutrientLimit => ({
  kind: 'nutrient',
  nutrient,
  end,
  bound: mgPerLitre(bound),
  owner: 'programme',
});

const plainMix: WithoutUnits<Mix> = {
  items: [
    { id: 'base', name: 'Tall Pine base powder', gramsPerLitre: 0.3125, perBatch: 1.25, costPerLitre: 0.00325 },
    { id: 'cal', name: 'cal', millilitresPerLitre: 0.4, perBatch: 1.6, costPerLitre: null },
    { id: 'moly', name: 'sodium molybdate', gramsPerLitre: 0.00002, perBatch: 0.00008, costPerLitre: 0.0000012 },
  ],
  waters: [{ id: 'rain', name: 'rain', share: 1, costPerLitre: 0 }],
  elements: [
    line('N', 40, 32, 40, 48),
    line('NO3-N', 30, null, null, null),
    { ...line('K', 50, 20, 40, 60), low: 45, high: 55 },
    line('Ca', 18.5, 24, 32, 48),
    line('Mg', 14.2, 4.8, 8, 12),
    line('Na', 3.1, null, null, 40),
    line('Fe', 0.8, 0.4, null, null),
    line('Mo', 0.0000001, null, null, 0.05),
    line('Co', 0, null, null, null),
  ],
  nitrogenShares: { nitrate: 0.75, ammonium: 0.25, urea: 0, other: 0, undeclared: 0 },
  rules: [
    { rule: ammonium, value: 0.25, bound: 0.25, holds: true },
    { rule: calcium, value: 1.303, bound: 2, holds: false },
  ],
  costPerLitre: 0.0032512,
  costPerBatch: 0.0130048,
  ec: { mSPerCm: 0.42, low: 0.39, high: 0.45, cap: { kind: 'ec', end: 'most', bound: 0.6, owner: 'programme' } },
  ph: { value: 5.6, low: 5.4, high: 5.8, asMixed: 5.6, buffered: false },
  acidity: {
    mgCaCO3PerLitre: -12,
    low: -14,
    high: -11,
    ifAllNitrifies: 71,
    alkalinity: 0.02,
    drift: 'basic',
  },
  alkalinity: null,
  ammonia: { mgPerLitre: 0, standing: 0, pH: 5.6, celsius: 25, most: 0.5, evidence: 'from memory, unchecked' },
  iron: null,
  precipitation: [
    {
      mineral: 'brushite',
      index: -1.2,
      openIndex: -1.1,
      verdict: 'clear',
      between: null,
    },
  ],
};
export const mix = plainMix as Mix;

export const optimal: Optimal = {
  verdict: 'optimal',
  objective: 0.0032512,
  bound: 0.0032512,
  gap: 0,
  violation: 0,
  x: {},
  y: {},
  engine: 'javascript-lp-solver',
  boundBy: 'multipliers',
};

const asked = { goal: 'cheapest', unit: 'EUR/L', ec: null } as const;

const told = { goal: 'cheapest', feed: header, unknowns: [], notes: [], cautions: [{ code: 'label-first' }] } as const;

export const blendResult: BlendMade = {
  status: 'made',
  ...told,
  ...mix,
  unknowns: [{ label: 'base', kindest: 0.003, found: 0.00325 }],
  notes: [],
  cautions: [{ code: 'label-first' }],
  proof: Proof.of({ question: 'feed', ...asked, stages: [{ goal: 'cost', verdict: optimal }] }),
};

export const infeasibleResult: BlendCannot = {
  status: 'cannot',
  ...told,
  unknowns: [],
  notes: [],
  cautions: [{ code: 'label-first' }],
  proof: Proof.of({
    question: 'feed',
    ...asked,
    stages: [{ goal: 'cost', verdict: { verdict: 'infeasible', ray: {}, engine: 'javascript-lp-solver' } }],
  }),
  absent: [],
  irreducible: true,
  farkas: null,
  conflict: [
    {
      limit: bandEnd('Ca', 'least', 24),
      because: [{ kind: 'only from', nutrient: 'Ca', products: ['cal'], bringing: [] }],
    },
    { limit: bandEnd('Mg', 'most', 12), because: [] },
  ],
  relaxations: [
    { kind: 'single', move: { limit: bandEnd('Mg', 'most', 12), from: 12, to: 14.2, ratio: null, wanted: null } },
  ],
  nearest: { ...mix, misses: [{ limit: bandEnd('Ca', 'least', 24), value: 18.5, bound: 24 }] },
};

export const reachResult: ReachResult = {
  status: 'apart',
  feed: header,
  shelf: 'shelf.csv',
  elements: [
    {
      element: 'N',
      whole: { lowest: 10, highest: 90 },
      capsOnly: { lowest: 0, highest: 120 },
      min: 32,
      aim: 40,
      max: 48,
      reachable: true,
      aimReachable: true,
      decides: null,
      limitedBy: [],
    },
    {
      element: 'Ca',
      whole: { lowest: 0, highest: 18.5 },
      capsOnly: { lowest: 0, highest: 18.5 },
      min: 24,
      aim: 32,
      max: 48,
      reachable: false,
      aimReachable: false,
      decides: { kind: 'only source', product: 'cal', limit: bandEnd('Mg', 'most', 12) },
      limitedBy: [
        bandEnd('Mg', 'most', 12),
        { kind: 'ec', end: 'most', bound: milliSiemensPerCm(0.6), owner: 'programme' },
      ],
    },
    {
      element: 'Fe',
      whole: { lowest: 0.1, highest: null },
      capsOnly: { lowest: 0, highest: null },
      min: 0.4,
      aim: null,
      max: null,
      reachable: true,
      aimReachable: null,
      decides: null,
      limitedBy: [],
    },
  ],
  aimsMiss: null,
  farthest: null,
  conflict: [bandEnd('Ca', 'least', 24), bandEnd('Mg', 'most', 12)],
  conflicting: true,
  alkaline: null,
  proof: Proof.of({ question: 'reach', whole: optimal, ends: [] }),
};

export const assessResult: AssessResult = {
  status: 'outside',
  feed: header,
  recipe: '1.25 g base + 1.6 mL cal in 4 L',
  volumeLitres: litres(4),
  byPen: [],
  ...mix,
  misses: [{ limit: bandEnd('Ca', 'least', 24), value: 18.5, bound: 24 }],
  graded: [{ limit: bandEnd('Ca', 'least', 24), value: 18.5, bound: 24, grade: 'need' }],
  change: null,
  mostShare: null,
  notes: [],
  cautions: [],
};
