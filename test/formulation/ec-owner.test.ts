import { expect, it } from 'vitest';
import { blend } from '../../src/blend/blend.js';
import { ecCap, ecRule, withEcCap } from '../../src/feed/request.js';
import { whyNotJson } from '../../src/report/json/why-not.js';
import { parseRules } from '../../src/programme/index.js';
import { unwrap } from '../../src/problem.js';
import { milliSiemensPerCm } from '../../src/units/index.js';
import { cannot } from '../feed/answers.js';
import { powder, request } from '../feed/fixtures.js';

const potash = powder('potash', { 'NO3-N': 13.8, K: 38.6 }, { formula: 'KNO3' });

it('a cap of the grower is one of the rules, and a conflict says whose it is', async () => {
  const rules = unwrap(parseRules(['EC <= 0.2', 'Cl <= 20'], { owner: 'you' }));
  expect(rules.map(({ kind }) => kind)).toEqual(['ec', 'linear']);
  const base = request([potash], { K: { min: 100 } }, { rules });
  const upper = milliSiemensPerCm(0.8);
  const programme = {
    ...base.programme,
    rules: [{ kind: 'ec' as const, text: 'EC <= 0.8', upper, from: { owner: 'programme' as const } }],
  };
  const asked = { ...base, programme };
  expect(ecCap(asked)).toBe(0.2);
  expect(ecRule({ ...asked, rules: [] })!.from.owner).toBe('programme');
  // by hand: 100 mg/L of K is 2.56 mmol/L of KNO3, which conducts 0.35 mS/cm
  const why = whyNotJson(cannot(await blend(asked, { prices: false })));
  expect(why.conflict.map(({ limit, from }) => [limit, from])).toContainEqual(['EC ≤ 0.2 mS/cm', 'you']);
  // a looser one of the grower's changes nothing
  const looser = await blend(withEcCap({ ...asked, rules: [] }, 0.9), { prices: false });
  expect(looser.status === 'made' && looser.ec.cap).toMatchObject({ bound: 0.8, owner: 'programme' });
});
