import type { EcLinearisation } from '../feed/ec-linearisation.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import { firstLinearisation } from './ec-row.js';
import { type Formulated, formulate } from './formulate.js';

/**
 * A program on one linearisation, by default the one that suits the programme. Only for purchases, whose feeds share one program that is
 * brought under the caps feed by feed afterwards (what that leaves open their proof says), and for the nearest feed where the cap itself
 * may be missed.
 */
export const startingProgram = (request: FeedRequest, linearisation: EcLinearisation | null): Formulated =>
  formulate(request, ecCap(request) === null ? null : (linearisation ?? firstLinearisation(request)));
