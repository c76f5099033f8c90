import type { Catalog } from '../../catalog/catalog.js';
import { NITROGEN_FORMS } from '../../chemistry/nutrients.js';
import { saltNamed } from '../../chemistry/salts.js';
import type { AnalysisColumn } from '../../label/analysis.js';
import { packIn, sizeFor } from '../../label/printed-pack.js';
import { type PrintedLabel, readPrintedLabel } from '../../label/printed-label.js';
import { type Checked, problem, type Where } from '../../problem.js';
import { formatNumber, identityOf } from '../../units/index.js';
import type { Assumed } from '../../report/start-assumed.js';
import { type NamedSalt, saltCells, saltMeant } from './salt-row.js';

/** One label as it was read: a row of the shelf, beside what was printed. */
export interface StartLabel {
  /** What was given. */
  text: string;
  id: string;
  name: string;
  form: 'powder' | 'liquid';
  /** What was printed, and the column and % that it was taken for; empty for a plain salt. */
  understood: PrintedLabel['understood'];
  /** Figures beside which no nutrient stands. */
  leftOver: readonly string[];
  derivedFrom: readonly string[];
  /** The cells of its row by column. */
  cells: Map<string, string>;
  assumed: Assumed[];
  /** True where the text does not say by what its % count, nor what a litre weighs. */
  basisOpen: boolean;
  /** True where the text names no product. */
  nameOpen: boolean;
  /** True where the label is of the style that the EU asks for. */
  european: boolean;
  /** The sign or code beside its price; absent where none is told. */
  currency?: string;
}

/** Reads one label, or the name of a plain salt. @returns a Problem where the text tells neither */
export function readStartLabel(text: string, at: number, catalog: Catalog, where: Where): Checked<StartLabel> {
  const label = readPrintedLabel(text);
  const meant = Object.keys(label.analysis.percent).length === 0 ? saltMeant(text, catalog) : undefined;
  if (meant) return { ok: true, value: packed(ofSalt(meant, text), label), warnings: [] };
  if (Object.values(label.analysis.percent).every((percent) => !percent))
    return { ok: false, problems: [nothingRead(text, where)] };
  return { ok: true, value: packed(ofLabel(label, text, at), label), warnings: [] };
}

/** With the size and price of the pack, where the text tells them. */
function packed(label: StartLabel, { analysis }: PrintedLabel): StartLabel {
  const { sizes, price, printed } = packIn(label.text);
  const pack = sizeFor(sizes, { form: label.form, ...(analysis.density === undefined ? {} : analysis) });
  if (printed.length === 0) return label;
  const isPriced = price !== null && pack !== null;
  // $ is the sign of many: the bench tells which
  const cost = isPriced ? `${formatNumber(price.amount)}${price.currency === '$' ? '' : ` ${price.currency}`}` : null;
  if (pack !== null) label.cells.set('pack', pack);
  if (cost !== null) label.cells.set('price', cost);
  const told = [...(pack === null ? [] : [pack]), ...(cost === null ? [] : [cost])];
  const leftOut = printed.filter(
    (one) => !told.some((cell) => sameFigure(cell, one)) && !(pack !== null && isSize(one)),
  );
  label.assumed.push({ of: 'pack', id: label.id, pack, price: cost, leftOut });
  return isPriced ? { ...label, currency: price.currency } : label;
}

/** A second size of the same pack says nothing more. */
const isSize = (printed: string): boolean => packIn(printed).sizes.length > 0;
const sameFigure = (cell: string, printed: string): boolean =>
  Number(/\d+(?:[.,]\d+)?/.exec(printed)?.[0].replace(',', '.')) === Number(cell.split(' ')[0]);

function ofSalt({ salt, others }: NamedSalt, text: string): StartLabel {
  return {
    text,
    id: salt.id,
    name: salt.name,
    form: salt.form,
    understood: [],
    leftOver: [],
    derivedFrom: salt.derivedFrom,
    cells: saltCells(salt),
    assumed: [{ of: 'salt', id: salt.id, name: salt.name, others }],
    basisOpen: false,
    nameOpen: false,
    european: false,
  };
}

function ofLabel(label: PrintedLabel, text: string, at: number): StartLabel {
  const { analysis, understood, leftOver } = label;
  const name = label.name === '' ? `label ${at}` : label.name;
  const id = idOf(label.name, at);
  const named = saltNamed(label.name.replace(GRADE, '').trim());
  const derivedFrom = analysis.derivedFrom ?? (named ? [named.name] : []);
  const basisOpen = analysis.form === 'liquid' && analysis.basis !== 'w/v' && analysis.density === undefined;
  const density = basisOpen ? likelyDensity(analysis.percent) : analysis.density;
  const byGrade = understood
    .filter(({ printed }) => GRADE.test(printed) && !/%/.test(printed))
    .map(({ column }) => column);
  const assumed: Assumed[] = [
    ...(label.name === '' ? [{ of: 'name', id, as: name } as const] : []),
    ...(byGrade.length > 0 ? [{ of: 'grade', id, columns: byGrade } as const] : []),
    ...label.doubts
      .filter(({ code }) => code === 'grade-wins')
      .map(({ found }) => ({ of: 'figure against grade', id, printed: found }) as const),
    ...(basisOpen ? [{ of: 'density', id, gramsPerMillilitre: density! } as const] : []),
  ];
  const cells = new Map<string, string>([
    ['id', id],
    ['name', name],
    ['form', analysis.form],
    ['basis', analysis.basis ?? ''],
    ...totalNitrogen(analysis.percent),
    ...Object.entries(analysis.percent).map(([column, value]): [string, string] => [column, formatNumber(value!, 6)]),
    ['density', density === undefined ? '' : formatNumber(density)],
    ['derived_from', derivedFrom.join('; ')],
    ['source', 'the label as printed'],
    ['evidence', 'grower'],
    ['notes', basisOpen ? 'assumed: % by weight and density; weigh 100 mL' : ''],
  ]);
  const { form } = analysis;
  const european = EUROPEAN.test(text);
  return {
    text,
    id,
    name,
    form,
    understood,
    leftOver,
    derivedFrom,
    cells,
    assumed,
    basisOpen,
    nameOpen: label.name === '',
    european,
  };
}

/** A label that tells forms of nitrogen and no total means their sum. */
function totalNitrogen(percent: PrintedLabel['analysis']['percent']): [string, string][] {
  const forms = NITROGEN_FORMS.map((form) => percent[form] ?? 0).reduce((sum, one) => sum + one, 0);
  return percent.N === undefined && forms > 0 ? [['N', formatNumber(forms, 6)]] : [];
}

const GRADE = /\d{1,2}(?:[.,]\d+)?\s*[-–+:/]\s*\d{1,2}(?:[.,]\d+)?\s*[-–+:/]\s*\d{1,2}(?:[.,]\d+)?/;

/** What stands beside a grade: `+ 2 MgO`, `+ TE`. */
const BESIDE = /\+\s*(?:\d{1,2}(?:[.,]\d)?\s*)?(?:CaO|MgO|SO3|Ca|Mg|S|Fe|TE)\b/g;

/** Words and decimal commas of labels under the EU's rules; Australian ones print none of them. */
const EUROPEAN =
  /\b(?:nitric|ureic|pentoxide|phosphoric\s+anhydride|sul(?:ph|f)ur\s+trioxide|potassium\s+oxide|PFC\s*\d)\b|\d,\d+\s*%|\bSO3\b/i;

/** Letters and figures of a name, joined by dashes: `Sample Rain Feed 11-2-13` → `sample-rain-feed`. */
export function idOf(name: string, at: number): string {
  const words = (text: string): string =>
    identityOf(text)
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-|-$/g, '');
  const short = (text: string): string => (text.length <= 32 ? text : text.slice(0, 32).replace(/-[^-]*$/, ''));
  const plain = short(words(name.replace(GRADE, ' ').replace(BESIDE, ' ')));
  if (/\p{L}{2}/u.test(plain)) return plain;
  const grade = GRADE.exec(name)?.[0];
  return grade === undefined ? `label-${at}` : `feed-${words(grade)}`;
}

/**
 * g/mL of a liquid whose label tells nothing: 1 % for each per cent of nutrients as oxides (common practice, no source: solutions of salts and
 * urea lie 5 to 15 % about it).
 */
export function likelyDensity(percent: Partial<Record<AnalysisColumn, number | null>>): number {
  const sum = AS_OXIDES.reduce((total, [column, factor]) => total + factor * (percent[column] ?? 0), 0);
  return Math.round(100 * Math.min(1.6, 1 + 0.01 * sum)) / 100;
}

const AS_OXIDES: readonly (readonly [AnalysisColumn, number])[] = [
  ['N', 1],
  ['P2O5', 1],
  ['P', 2.3],
  ['K2O', 1],
  ['K', 1.2],
  ['CaO', 1],
  ['Ca', 1.4],
  ['MgO', 1],
  ['Mg', 1.7],
  ['SiO2', 1],
  ['Si', 2.1],
];

const nothingRead = (text: string, where: Where) =>
  problem(
    'label-not-read',
    where,
    `"${text.replace(/\s+/g, ' ').trim().slice(0, 60)}", in which no nutrient has a figure`,
    'the analysis as the label prints it, or a plain salt by its name',
    'Write for example "Total Nitrogen (N) 12 %, Soluble Potash (K2O) 8 %", "20-20-20" or "Epsom salt".',
  );
