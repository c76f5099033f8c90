import type { BlendCannot, BlendMade, BlendResult, FrontierMade, FrontierResult } from '../../src/feed/results.js';
import type { PurchaseMade, PurchaseResult } from '../../src/purchase/types.js';
import { proofSentence } from '../../src/report/says/proof.js';

/** The feed that a test expects to be made. @throws where it was not, with what its proof says */
export function made(result: BlendResult): BlendMade;
export function made(result: FrontierResult): FrontierMade;
export function made(result: PurchaseResult): PurchaseMade;
export function made(result: BlendResult | FrontierResult | PurchaseResult): BlendMade | FrontierMade | PurchaseMade {
  if (result.status === 'made') return result;
  throw new Error(`not made: ${proofSentence(result.proof)}`);
}

/** Why there is no feed, where a test expects none. @throws where there is one, or none was ruled out */
export function cannot(result: BlendResult): BlendCannot {
  if (result.status === 'cannot') return result;
  throw new Error(`${result.status}: ${proofSentence(result.proof)}`);
}
