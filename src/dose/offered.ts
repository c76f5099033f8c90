import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import type { Litres } from '../units/index.js';
import type { DoseNote, OfferedDose } from './findings.js';
import type { DosePlan, PlanOptions, TrialPlan } from './plan-types.js';

/** A mix that a kit cannot measure closely enough, for which ways out are sought. */
export interface Short {
  request: FeedRequest;
  amounts: Amounts;
  kit: Kit;
  options: PlanOptions;
}

export const withBatch = (request: FeedRequest, batchLitres: Litres): FeedRequest => ({
  ...request,
  header: { ...request.header, batchLitres },
});

export const dosesOf = ({ items, leftOut }: Pick<DosePlan, 'items' | 'leftOut'>): OfferedDose[] => [
  ...items.map(({ product, chosen }) => ({ product: product.id, words: chosen.words })),
  ...leftOut.map(({ product }) => ({ product: product.id, words: null })),
];

/** Whether the kit itself measures every item: what is merely written down would be a way out for nobody. */
export const isMeasured = ({ notes }: Pick<TrialPlan, 'notes'>): boolean => !notes.some(isUnmeasured);

/** Notes on items that nothing in the kit measures. */
export const isUnmeasured = (
  note: DoseNote,
): note is Extract<
  DoseNote,
  { kind: 'bulk density missing' | 'nothing measures a powder' | 'nothing measures a liquid' }
> => UNMEASURED.has(note.kind);

const UNMEASURED: ReadonlySet<string> = new Set([
  'bulk density missing',
  'nothing measures a powder',
  'nothing measures a liquid',
]);
