import type { Problem } from '../problem.js';
import { warning } from '../problem.js';
import { formatNumber } from '../units/format.js';
import type { Analysis, AnalysisColumn } from './analysis.js';
import { doubtsOf } from './doubts.js';
import { gradeOf } from './grade-in-name.js';
import { type Figure, figuresIn } from './printed-figures.js';
import { sourcesIn } from './printed-sources.js';

/** A label as its text was understood: the analysis, what each figure was read from, and what is doubtful. */
export interface PrintedLabel {
  /** The first line that is no heading; empty where there is none. */
  name: string;
  analysis: Analysis;
  /** What was printed, and the column and % (or g in 100 mL) that it was taken for. */
  understood: readonly { printed: string; column: AnalysisColumn; percent: number }[];
  /** Figures beside which no nutrient stands, as printed. */
  leftOver: readonly string[];
  /** Questions; the figures are used as they stand. */
  doubts: readonly Problem[];
}

/**
 * Reads the text of a printed label, of a US guaranteed analysis ("Total Nitrogen (N) 12 % … 10.5 % Nitrate Nitrogen … Derived from: …")
 * or of an EU declaration ("5,5 % nitric nitrogen"; oxides), in English, with decimal points or commas, however its lines are broken.
 * Whether an element or its oxide is meant is what is printed; a bare "phosphate" and "potash" are the oxides. Never refuses: what it
 * did not understand is told.
 */
export function readPrintedLabel(text: string): PrintedLabel {
  const plain = text
    .normalize('NFKC')
    .replace(/\r\n?/g, '\n')
    .replace(/[\u2010-\u2012\u2212]/g, '-')
    .replace(/\.{2,}|…|_{2,}|·{2,}/g, ' ')
    .replace(/[*†‡•■]/g, ' ');
  const { rest, derivedFrom } = sourcesIn(plain);
  const { figures, leftOver } = figuresIn(rest);
  const doubts: Problem[] = [];
  const percent: Analysis['percent'] = {};
  const understood: { printed: string; column: AnalysisColumn; percent: number }[] = [];
  for (const figure of figures) {
    const before = percent[figure.column];
    // water-soluble and water-insoluble nitrogen are two parts, as far as the total goes
    const sum = (before ?? 0) + figure.percent;
    const adds = figure.column === 'other-N' && sum <= (percent.N ?? 0) + 0.05;
    if (before === undefined || adds) percent[figure.column] = Math.round(sum * 1e6) / 1e6;
    else if (before !== null && !isPart(figure, before)) doubts.push(twice(figure, before));
    understood.push({ printed: figure.printed, column: figure.column, percent: figure.percent });
  }
  const name = nameOf(plain);
  const analysis = { ...formOf(rest), percent, ...(derivedFrom.length > 0 ? { derivedFrom } : {}) };
  doubts.push(...doubtsOf({ ...analysis, name }, {}));
  return { name, analysis, understood, leftOver, doubts };
}

/** A figure that is part of one told before: `of which 4 % soluble in water`, `0.1 % chelated iron`. */
const isPart = (figure: Figure, before: number): boolean => figure.percent <= before && figure.part;

function twice({ column, percent }: Figure, before: number): Problem {
  return warning(
    'printed-twice',
    { field: column },
    `${column} ${formatNumber(before)} % and ${formatNumber(percent)} %`,
    'one figure',
    'The first is used: look at the label.',
  );
}

function nameOf(text: string): string {
  const lines = text.split('\n').map((line) => line.trim());
  const told = lines.filter((line) => /[a-z\d]/i.test(line) && !HEADING.test(line) && !/%/.test(line));
  const graded = told.find((line) => gradeOf(line) !== null);
  return (graded ?? (told[0] === lines.find((line) => line !== '') ? told[0] : undefined) ?? '').slice(0, 80);
}

const HEADING =
  /^(?:guaranteed\s+(?:minimum\s+)?analysis|analysis|declaration|declared\s+(?:nutrient\s+)?contents?|nutrients?|ingredients?|derived\s+from|composition|contents?)\b/i;

/** Powder unless a liquid is told; a liquid's density, and whether its figures are by volume. */
function formOf(text: string): Pick<Analysis, 'form' | 'basis' | 'density'> {
  const density = densityOf(text);
  const byVolume = /\b[wm]\s?\/\s?v\b|%\s*\(?\s*[wm]\/v|\bg\s*(?:\/|per)\s*100\s*ml\b|mass\s+by\s+volume/i.test(text);
  const liquid =
    byVolume ||
    density !== undefined ||
    /\b(?:liquid|solution|fluid)\s*(?:fertili[sz]er|feed|plant|concentrate|\n|$)/im.test(text);
  return {
    form: liquid ? 'liquid' : 'powder',
    ...(byVolume ? { basis: 'w/v' as const } : {}),
    ...(density === undefined ? {} : { density }),
  };
}

function densityOf(text: string): number | undefined {
  const metric = /(?:density|specific\s+gravity|spec\.?\s*gr(?:avity)?\.?)[^\d\n]{0,20}([01][.,]\d+)/i.exec(text);
  if (metric) return Number(metric[1]!.replace(',', '.'));
  const pounds = /(\d{1,2}(?:[.,]\d+)?)\s*(?:lbs?|pounds?)\.?\s*(?:\/|per)\s*(?:us\s+)?gal/i.exec(text);
  // the avoirdupois pound in a US gallon
  return pounds
    ? Math.round((Number(pounds[1]!.replace(',', '.')) * 453.59237 * 1000) / 3785.411784) / 1000
    : undefined;
}
