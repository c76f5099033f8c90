import type { Grounds } from '../../programme/index.js';

/** Why a band, factor or rule of a programme is as it is, in one line. */
export const evidenceSays = ({ of, evidence, source, notes }: Grounds): string =>
  `${subjectOf(of)}: ${evidence}, ${source}${notes ? ` — ${notes}` : ''}`;

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
