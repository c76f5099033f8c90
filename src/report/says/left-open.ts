import type { ClosedBy, LeftOpen, LikelyRange, NitrogenForm } from '../../label/left-open.js';
import { formatNumber } from '../../units/index.js';

/** What a label leaves open, as a sentence. */
export function leftOpenSays(open: LeftOpen): string {
  switch (open.kind) {
    case 'nitrogen form': {
      const share =
        open.total === null
          ? `N ${formatNumber(open.percent, 3)} %`
          : `${formatNumber(open.percent, 3)} of ${formatNumber(open.total, 3)} % N`;
      const cap = open.cap === 'counts all' ? '; a cap on ammonium counts all of it' : '';
      return `${share} without a stated form: may be ${either(open.forms.map((form) => FORMS[form]))}${cap}.`;
    }
    case 'not stated':
      return `${open.nutrient} is not stated: between 0 and ${formatNumber(open.upToPercent, 2)} %.`;
    case 'counted as none':
      return `Not stated and counted as none: ${open.nutrients.join(', ')}.`;
    case 'unknown sources':
      return `Sources of unknown make-up, which may bring more than is counted: ${open.names.join(', ')}.`;
    case 'closed': {
      const most = open.ceiling > 0 ? `up to ${formatNumber(open.ceiling, 3)}` : 'none of it';
      const counted = open.ceiling < open.range.high ? `; a cap counts ${most}, by the charges left over` : '';
      return `${open.nutrient} is not stated: ${likely(open.range, open.per)} ${BY[open.by]}${counted}.`;
    }
    case 'nitrogen forms closed':
      return `Forms of nitrogen ${BY[open.by]}: ${open.forms.map(({ form, range }) => `${form} ${likely(range, open.per)}`).join('; ')}.`;
    case 'ruled out':
      return `${open.nutrient} is not stated, and ${WHO[open.by]} bring none.`;
    default:
      return open satisfies never;
  }
}

const FORMS: Readonly<Record<NitrogenForm, string>> = {
  'NO3-N': 'nitrate',
  'NH4-N': 'ammonium',
  'urea-N': 'urea',
  'other-N': 'another form',
};

const BY: Readonly<Record<ClosedBy, string>> = {
  sources: 'by the salts named',
  'label alone': 'by every plausible counter-ion',
};

const WHO: Readonly<Record<ClosedBy, string>> = {
  sources: 'the salts named',
  'label alone': 'plausible counter-ions',
};

const likely = ({ low, value, high }: LikelyRange, per: 'g' | 'mL'): string =>
  `about ${formatNumber(value, 3)} mg/${per} (${formatNumber(low, 3)} to ${formatNumber(high, 3)})`;

const either = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
