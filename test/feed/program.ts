import type { EcLinearisation } from '../../src/feed/ec-linearisation.js';
import { ecCap, type FeedRequest } from '../../src/feed/request.js';
import { firstLinearisation } from '../../src/formulation/ec-row.js';
import { type Formulated, type FormulateOptions, formulate } from '../../src/formulation/formulate.js';

/** The linearisation that a feed begins with; null without an EC cap. */
export const firstOf = (request: FeedRequest): EcLinearisation | null =>
  ecCap(request) === null ? null : firstLinearisation(request);

/** The program of a feed on that linearisation, for tests that solve it by another way. */
export const programOf = (request: FeedRequest, options: FormulateOptions = {}): Formulated =>
  formulate(request, firstOf(request), options);
