import { grams, scaleBy } from '../units/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { FeedRequest } from '../feed/request.js';
import type { SureDoses, SureDosesOptions, SureRemedy } from './robust-types.js';

type Again = (request: FeedRequest, kit: Kit, share: number, options: SureDosesOptions) => Promise<SureDoses>;

/** What could be done about doses that fall short: a larger batch, a finer scale; each by planning again, the best first, none that does not help. */
export async function remediesFor(
  { wanted, share }: { wanted: number; share: number },
  request: FeedRequest,
  kit: Kit,
  again: Again,
  options: SureDosesOptions,
): Promise<SureRemedy[]> {
  const litres = scaleBy(request.header.batchLitres!, 2);
  const double = { ...request, header: { ...request.header, batchLitres: litres } };
  const reached = async (other: FeedRequest, tools: Kit): Promise<number> => {
    const found = await again(other, tools, wanted, { ...options, remedies: false });
    return found.status === 'no feed' ? 0 : found.share;
  };
  const tried: SureRemedy[] = [{ kind: 'batch', litres, share: await reached(double, kit) }];
  if (kit.scaleStepGrams === undefined || kit.scaleStepGrams > FINE)
    tried.push({ kind: 'scale', stepGrams: FINE, share: await reached(request, withScale(kit)) });
  return tried.filter((remedy) => remedy.share > share + HELPS).sort((a, b) => b.share - a.share);
}

const FINE = grams(0.01);
/** More of the share is worth naming. */
export const HELPS = 0.02;

function withScale({ scaleErrorGrams: _, ...kit }: Kit): Kit {
  return { ...kit, scaleStepGrams: FINE };
}
