import type { Rule } from '../programme/rule.js';
import type { FeedRequest } from './request.js';

/** Whether a rule limits the alkalinity of the can. */
export const isOnAlkalinity = (rule: Rule): boolean => rule.kind === 'linear' && rule.terms.alkalinity !== undefined;

/**
 * The request without a limit on alkalinity that no mix in its waters can keep: each water brings more, and nothing on the shelf takes any.
 * Such a limit must not drag others along that give way together; the feed is judged by it all the same, and told what would mend it.
 */
export function withoutHopelessAlkalinity(request: FeedRequest): FeedRequest {
  const { programme, shelf, waters } = request;
  const rules = programme.rules.filter((rule) => !isHopeless(rule, shelf, waters));
  return rules.length === programme.rules.length ? request : { ...request, programme: { ...programme, rules } };
}

function isHopeless(rule: Rule, shelf: FeedRequest['shelf'], waters: FeedRequest['waters']): boolean {
  if (rule.kind !== 'linear' || !rule.aimed || rule.upper === undefined || rule.terms.alkalinity === undefined)
    return false;
  const least = Math.min(...waters.map(({ alkalinity }) => alkalinity));
  return least > rule.upper && shelf.every(({ ions }) => ions.value.alkalinity > -ACID);
}

/** meq in a gram or millilitre below which a product is no acid: a phosphate as it is sold. */
const ACID = 0.5;
