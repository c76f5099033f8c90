import type * as z from 'zod';
import { ecCap, linearRules } from '../../feed/request.js';
import type { LinearRule, Programme } from '../../programme/index.js';
import { originSays } from '../says/limits.js';
import { evidenceSays } from '../says/programmes.js';
import type { programmesShape } from '../schemas.js';

type ProgrammesJson = z.infer<typeof programmesShape>;

/** What `blend --programmes --json` prints. */
export const programmesJson = (programmes: readonly Programme[]): ProgrammesJson => ({
  schema: 'velamen.programmes/1',
  status: 'listed',
  programmes: programmes.map(programmeJson),
});

function programmeJson(programme: Programme): ProgrammesJson['programmes'][number] {
  const { plants, medium, phase, bands, evidence } = programme;
  const maxEc = ecCap({ programme, rules: [] });
  return {
    plants,
    medium,
    phase,
    bands,
    rules: linearRules({ programme, rules: [] }).map(ruleJson),
    ...(maxEc === null ? {} : { maxEc }),
    evidence: evidence.map(evidenceSays),
  };
}

const ruleJson = ({
  text,
  terms,
  lower,
  upper,
  from,
}: LinearRule): ProgrammesJson['programmes'][number]['rules'][number] => ({
  text,
  terms,
  ...(lower === undefined ? {} : { lower }),
  ...(upper === undefined ? {} : { upper }),
  from: originSays(from),
});
