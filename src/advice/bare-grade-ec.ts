import type { Ions } from '../chemistry/ions.js';
import { NITROGEN_FORMS } from '../chemistry/nutrients.js';
import { ionsOfLabel, times } from '../label/counter-ions.js';
import { likelyMakeUps } from '../label/likely-make-ups.js';
import { readAnalysis } from '../label/read-analysis.js';
import { LIQUID_MOST } from './rate.js';
import type { Advice, Grade, Span } from './types.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';

/** Every make-up that a bare grade can have, as mmol per g. */
export type GradeIons = readonly Ions[];

/**
 * A grade tells no forms: its nitrogen may be all nitrate, all ammonium, all urea or of both charges, and what balances it chloride,
 * sulfate or bicarbonate. All nitrate is balanced by sodium, for nobody sells nitric acid under a grade.
 */
export function gradeIons({ percent }: Grade): GradeIons {
  const forms = percent.N ? [undefined, ...NITROGEN_FORMS.filter((form) => form !== 'other-N')] : [undefined];
  return forms.flatMap((form) => {
    const read = readAnalysis({ form: 'powder', percent: { ...percent, ...(form ? { [form]: percent.N } : {}) } });
    // a form may not fit into 100 %: then the grade cannot be made of it
    if (!read.ok) return [];
    const { value, leastConductive, mostConductive, alkaline } = ionsOfLabel(read.value);
    return form === 'NO3-N' ? [alkaline] : [value, leastConductive, mostConductive];
  });
}

/**
 * The make-ups that are likely behind a bare grade, each end a whole one; undefined where there is no grade, or none that is likely (then all
 * of `gradeIons` stand). A powder is full of its salts, a liquid of water: what is low and may be either is read as both.
 */
export async function likelyGradeIons(advice: Pick<Advice, 'form' | 'grade' | 'rate'>): Promise<GradeIons | undefined> {
  const found: Ions[] = [];
  for (const form of advice.grade ? formsOf(advice) : []) {
    const { percent } = advice.grade!;
    // a liquid is read as strong as liquids come, and thinned again: what nobody tells goes with the salts, not with the water
    const thicker = form === 'liquid' ? LIQUID_MOST / totalOf(percent) : 1;
    const figures = Object.fromEntries(Object.entries(percent).map(([name, value]) => [name, value * thicker]));
    const read = readAnalysis({ form, percent: figures, ...(form === 'liquid' ? { basis: 'w/v' } : {}) });
    const likely = read.ok ? await likelyMakeUps(read.value, []) : null;
    if (!likely) continue;
    const { value, ends } = likely;
    found.push(...[value, ends.leastConductive, ends.mostConductive].map((ions) => times(ions, 1 / thicker)));
  }
  return found.length > 0 ? found : undefined;
}

/** As its words tell, or its millilitres. */
function formsOf({ form, grade, rate }: Pick<Advice, 'form' | 'grade' | 'rate'>): readonly ('powder' | 'liquid')[] {
  const total = totalOf(grade!.percent);
  // nothing in it: no salts to thin
  if (total === 0) return ['powder'];
  if (form !== null) return [form];
  if (rate && /^(?:m(?:l|illilit)|drop)/i.test(rate.unit) && total <= LIQUID_MOST) return ['liquid'];
  return total <= LIQUID_USUAL ? ['liquid', 'powder'] : ['powder'];
}

const totalOf = (percent: Grade['percent']): number => Object.values(percent).reduce((sum, x) => sum + x, 0);

/** N, P2O5 and K2O of liquids as they are commonly sold come to no more than this, in % (common practice, no source). */
const LIQUID_USUAL = 30;

/** mS/cm in pure water between the least and the most conductive make-up, with the error of the model. */
export function gradeEc(ions: GradeIons, grams: Span): Span {
  return { low: least(ions, grams.low), high: most(ions, grams.high) };
}

/** g/L that read so many mS/cm; null where a make-up (urea) would never read that much. */
export function gramsAt(ions: GradeIons, mSPerCm: Span): Span | null {
  const span = {
    low: inverse(mSPerCm.low, (grams) => most(ions, grams)),
    high: inverse(mSPerCm.high, (grams) => least(ions, grams)),
  };
  return span.high < MOST_GRAMS * 0.999 ? span : null;
}

/** Error of the conductivity model, as a share. */
const MODEL = 0.03;
/** g/L beyond which nobody feeds. */
const MOST_GRAMS = 50;

const least = (ions: GradeIons, grams: number): number => Math.min(...ions.map((i) => reads(i, grams))) * (1 - MODEL);
const most = (ions: GradeIons, grams: number): number => Math.max(...ions.map((i) => reads(i, grams))) * (1 + MODEL);
const reads = (ions: Ions, grams: number): number => conductivity(grams > 0 ? times(ions, grams) : NONE);

function inverse(mSPerCm: number, ec: (grams: number) => number): number {
  let [low, high] = [0, MOST_GRAMS];
  for (let step = 0; step < 30; step += 1) {
    const middle = (low + high) / 2;
    if (ec(middle) < mSPerCm) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
