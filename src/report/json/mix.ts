import type * as z from 'zod';
import { type Caution, hazardsIn } from '../../can/cautions.js';
import type { CloudingLine } from '../../can/clouding.js';
import { statementOf } from '../../can/hazards.js';
import { cloudingSays } from '../says/clouding.js';
import type { Miss, Mix } from '../../feed/results.js';
import { missName, originSays } from '../says/limits.js';
import { cautionSays } from '../says/cautions.js';
import { acidityLines, meetingSays, phCaution } from '../says/solution.js';
import type { cloudingLine, hazardLine, misses, mix } from '../shapes.js';

type MixJson = { [Part in keyof typeof mix]: z.infer<(typeof mix)[Part]> };
type Solution = Pick<MixJson, 'rules' | 'ec' | 'ph' | 'acidity' | 'precipitation'> & { meetings?: MixJson['meetings'] };

/** A mix, and whatever else the object holds, as it is published: what the solution is like gets its sentences. */
export function mixJson<M extends Mix>(result: M): Omit<M, keyof Solution> & Solution {
  const { ph, acidity, precipitation, meetings } = result;
  const { drift: _, ...figures } = acidity;
  return {
    ...result,
    rules: result.rules.map(ruleJson),
    ec: ecJson(result.ec),
    ph: { value: ph.value, low: ph.low, high: ph.high, asMixed: ph.asMixed, caution: phCaution(ph) },
    acidity: { ...figures, says: acidityLines(acidity) },
    precipitation: precipitation.map(cloudingJson),
    ...(meetings === undefined
      ? {}
      : {
          meetings: meetings.map((meeting) => ({
            between: [meeting.between[0].id, meeting.between[1].id],
            minerals: meeting.minerals,
            sentence: meetingSays(meeting),
          })),
        }),
  };
}

const ruleJson = ({ rule, value, bound, holds, mayHold }: Mix['rules'][number]): MixJson['rules'][number] => ({
  rule: rule.text,
  from: originSays(rule.from),
  value,
  bound,
  holds,
  ...(mayHold ? { mayHold } : {}),
});

const ecJson = ({ mSPerCm, low, high, cap }: Mix['ec']): MixJson['ec'] => ({
  mSPerCm,
  low,
  high,
  max: cap?.bound ?? null,
});

export const missesJson = (missed: readonly Miss[]): z.infer<typeof misses> =>
  missed.map(({ limit, value, bound }) => ({ limit: missName(limit), value, bound }));

export const cloudingJson = (line: CloudingLine): z.infer<typeof cloudingLine> => ({
  mineral: line.mineral,
  index: line.index,
  openIndex: line.openIndex,
  verdict: line.verdict,
  between: line.between && [line.between[0].id, line.between[1].id],
  sentence: cloudingSays(line),
});

/** What to take care of in words, and the hazard statements of each product by their codes. */
export const careJson = (
  cautions: readonly Caution[],
): { cautions: string[]; hazards: z.infer<typeof hazardLine>[] } => ({
  cautions: cautions.map(cautionSays),
  hazards: hazardsIn(cautions).map(({ item, codes, may }) => ({
    item,
    codes,
    statements: codes.map((code) => statementOf(code)?.statement ?? code),
    may,
  })),
});

/** A mix as it is published, without whatever else the object holds. */
export function mixAlone(mix: Mix) {
  const { items, waters, elements, nitrogenShares, rules, costPerLitre, costPerBatch, ec, ecAtTemperature } = mix;
  const { ph, acidity, alkalinity, ammonia, iron, precipitation, meetings } = mix;
  return mixJson({
    items,
    waters,
    elements,
    nitrogenShares,
    rules,
    costPerLitre,
    costPerBatch,
    ec,
    ...(ecAtTemperature ? { ecAtTemperature } : {}),
    ph,
    acidity,
    alkalinity,
    ammonia,
    iron,
    precipitation,
    ...(meetings ? { meetings } : {}),
  });
}
