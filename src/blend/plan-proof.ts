import type { NearAsked } from '../feed/near.js';
import { Proof } from '../feed/proof.js';
import type { NearestWidth } from './near-width.js';
import { fewestOf, type Thrifty } from './thrifty.js';

/** Of the very question: near as asked, limits moved in or not, and the fewest items for hardly more. */
export function proofOf(
  { near, thrift, movedIn: moved }: { near: NearAsked; thrift: Thrifty; movedIn: boolean },
  { nearer, nearerAt }: NearestWidth,
): Proof {
  const { settled } = thrift.answer.proof;
  if (settled.question !== 'feed' && settled.question !== 'at most') return thrift.answer.proof;
  const { goal, unit, ec, stages } = settled;
  return Proof.of({
    question: 'plan',
    goal,
    unit,
    ec,
    stages,
    near,
    nearer,
    nearerAt,
    movedIn: moved,
    few: settled.question === 'at most' ? settled : null,
    fewest: fewestOf(thrift),
  });
}
