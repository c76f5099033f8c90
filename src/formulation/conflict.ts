import type { FeedRequest } from './request.js';
import type { BlendResult } from './results.js';
export async function conflictOf(_r: FeedRequest): Promise<Required<Pick<BlendResult, 'conflict' | 'relaxations'>>> {
  return { conflict: [], relaxations: [] };
}
