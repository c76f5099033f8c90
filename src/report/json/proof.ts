import type * as z from 'zod';
import type { Proof } from '../../feed/proof.js';
import { proofSentence, stageWords } from '../says/proof.js';
import type { proof as proofShape } from '../shapes.js';

/** A proof as it is published. */
export function proofJson(proof: Proof): z.infer<typeof proofShape> {
  const { engine, verdict, figures, stages } = proof;
  return {
    engine,
    verdict,
    ...figures,
    sentence: proofSentence(proof),
    ...(stages.length === 0
      ? {}
      : { stages: stages.map(({ goal, ...rest }) => ({ goal: stageWords(goal), ...rest })) }),
  };
}
