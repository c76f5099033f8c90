import { NO_SOURCE } from '../../catalog/references.js';
import type { Grounds } from '../../programme/index.js';

/** Why a band, factor or rule of a programme is as it is, in one line. */
export const evidenceSays = ({ of, evidence, refs, source, notes }: Grounds): string =>
  `${subjectOf(of)}: ${evidence}, ${source}${keysOf(refs)}${notes ? ` — ${notes}` : ''}`;

/** The list of references gives each in full; a row without a source has said so already. */
function keysOf(refs: readonly string[]): string {
  const named = refs.filter((key) => !(NO_SOURCE as readonly string[]).includes(key));
  return named.length === 0 ? '' : ` [${named.join(', ')}]`;
}

function subjectOf(of: Grounds['of']): string {
  switch (of.kind) {
    case 'band':
      return of.nutrient;
    case 'rule':
      return of.text;
    case 'factor': {
      const { factor, nutrient, medium, phase } = of;
      return `× ${factor} on ${nutrient === '*' ? 'every element' : nutrient} in ${medium === '*' ? phase : medium}`;
    }
  }
}
