import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import { saltsOf } from '../chemistry/salts.js';
import { type Problem, problem, type Where, warning } from '../problem.js';
import { formatNumber } from '../units/format.js';
import type { Analysis } from './analysis.js';
import type { Content } from './composition.js';
import type { LeftOpen, NitrogenForm as Form } from './left-open.js';
import { lastDigits } from './printed.js';

interface Nitrogen {
  /** N and its forms in %; empty where the label names no nitrogen at all. */
  content: Map<Nutrient, Content>;
  open: LeftOpen[];
  problems: Problem[];
}

const WORDS: Readonly<Record<Form, string>> = {
  'NO3-N': 'nitrate',
  'NH4-N': 'ammonium',
  'urea-N': 'urea',
  'other-N': 'another form',
};

/**
 * Total nitrogen and its forms. What no form accounts for may be any form that the label leaves empty and the sources allow: each
 * ranges from none to all of it. Where only one form remains possible it is settled.
 */
export function nitrogenOf(analysis: Analysis, where: Where): Nitrogen {
  const { percent } = analysis;
  const stated = NITROGEN_FORMS.filter((form) => isNumber(percent[form]));
  const sum = stated.reduce((total, form) => total + percent[form]!, 0);
  const content = new Map<Nutrient, Content>(stated.map((form) => [form, exact(percent[form]!)]));
  const rest: Nitrogen = { content, open: [], problems: [] };
  if (!isNumber(percent.N) && stated.length === 0) return rest;

  const field = { ...where, field: 'N' };
  if (!isNumber(percent.N)) {
    rest.problems.push(
      warning(
        'nitrogen-total-missing',
        field,
        'forms of nitrogen without total N',
        'the total',
        `Taken as their sum, ${formatNumber(sum)} %.`,
      ),
    );
  }
  const total = isNumber(percent.N) ? percent.N : sum;
  content.set('N', exact(total));
  /** Each printed figure may be half a unit of its first decimal off. */
  const rounding = 0.05 * (stated.length + 1) + 1e-9;
  if (sum > total + rounding) {
    rest.problems.push(
      problem(
        'nitrogen-forms',
        field,
        `forms that add up to ${formatNumber(sum)} % beside total N ${formatNumber(total)} %`,
        'forms that add up to total N or less',
        'Check the figures; a form is part of the total, not on top of it.',
      ),
    );
    return rest;
  }
  const left = total - sum;
  const silent = NITROGEN_FORMS.filter((form) => !stated.includes(form));
  if (total === 0 || (stated.length > 0 && left <= rounding)) {
    for (const form of silent) content.set(form, { low: 0, stated: null, high: 0 });
    return rest;
  }
  const possible = silent.filter((form) => allowed(form, analysis));
  /** Rounded down, each stated form may hide nearly a unit of its last digit; that is what is left where no other form can be. */
  const hidden = stated.length * (lastDigits(analysis).get('N') ?? 0) + 1e-9;
  if (possible.length === 0 && silent.length > 0 && left <= hidden) {
    for (const form of silent) content.set(form, { low: 0, stated: null, high: 0 });
    return rest;
  }
  if (possible.length === 0) {
    rest.problems.push(
      problem(
        'nitrogen-forms',
        field,
        `total N ${formatNumber(total)} % of which ${formatNumber(left)} % is in no form`,
        'forms that add up to total N',
        silent.length === 0
          ? 'Check the figures, or leave the form that you do not know empty.'
          : 'No source under derived_from holds it: check the list and the figures.',
      ),
    );
    return rest;
  }
  for (const form of silent) content.set(form, range(form, possible, left));
  const forms = listed(possible.map((form) => WORDS[form]));
  if (stated.length > 0) {
    rest.problems.push(
      warning(
        'nitrogen-forms',
        field,
        `forms that add up to ${formatNumber(sum)} % beside total N ${formatNumber(total)} %`,
        'forms that add up to total N',
        `The other ${formatNumber(left, 3)} % is taken as ${forms}; check the figures.`,
      ),
    );
  }
  if (possible.length === 1) return rest;
  rest.open.push({
    kind: 'nitrogen form',
    percent: left,
    total: stated.length > 0 ? total : null,
    forms: possible,
    cap: possible.includes('NH4-N') ? 'counts all' : 'as told',
  });
  return rest;
}

function range(form: Form, possible: readonly Form[], left: number): Content {
  if (!possible.includes(form)) return { low: 0, stated: null, high: 0 };
  return possible.length === 1 ? exact(left) : { low: 0, stated: null, high: left };
}

/**
 * Whether the sources can hold a form. Chelates and trace salts are passed over: their nitrogen is below 0.1 % of any product. An
 * unknown source, or none named, can hold anything.
 */
function allowed(form: Form, { derivedFrom = [] }: Analysis): boolean {
  const { known, unknown } = saltsOf(derivedFrom);
  const carriers = known.filter((salt) => !TRACES.some((trace) => salt.holds.has(trace)) && salt.holds.has('N'));
  if (carriers.length === 0 || unknown.length > 0) return true;
  return carriers.some((salt) => salt.holds.has(form));
}

const TRACES: readonly Nutrient[] = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo', 'Co', 'Ni'];

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

const exact = (value: number): Content => ({ low: value, stated: value, high: value });
const isNumber = (value: number | null | undefined): value is number => value !== null && value !== undefined;
