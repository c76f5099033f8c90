import { labelsOf } from '../../desk/labels.js';
import { shippedCatalog } from '../../desk/shipped-catalog.js';
import { labelOnShelf } from '../../desk/start/add-label.js';
import type { Problem } from '../../problem.js';
import { figure } from '../../report/figures.js';
import { labelsSheet, type LabelsResult, missingSays } from '../../report/labels.js';
import type { Block } from '../../report/sheet.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';
import type { Choice } from './words.js';

/** What the labels of a shelf mean. */
export interface ShelfView {
  products: ProductView[];
  /** What the shelf does not say of its products. */
  missing: string[];
  warnings: readonly Problem[];
}

/** What one label means. */
export interface ProductView {
  id: string;
  /** `g/L` or `mL/L`: what the figures are for one of. */
  per: string;
  brings: { element: string; figure: string }[];
  problems: readonly Problem[];
  /** The whole of it, as `labels` reports it. */
  blocks: Block[];
}

export async function shelfQuestion({ texts }: { texts: BenchTexts }): Promise<ShelfView> {
  const { result, warnings } = await labelsOf(filesOf(texts), {});
  return { products: productsOf(result), missing: result.missing.map(missingSays), warnings };
}

const productsOf = (result: LabelsResult): ProductView[] =>
  result.products.map((product) => ({
    id: product.id,
    per: product.per,
    brings: product.elements.map(({ element, mgPerLitre, low, high, closed }) => ({
      element,
      figure: range(closed ?? { low, high }, mgPerLitre),
    })),
    problems: product.problems,
    blocks: labelsSheet({ ...result, products: [product], missing: [] }).blocks,
  }));

/** One figure, or from where to where. */
const range = ({ low, high }: { low: number; high: number }, stated: number | null): string =>
  high > low * (1 + 1e-9) ? `${figure(low)} to ${figure(high)}` : figure(stated ?? low);

/** How a printed label was understood, before anything is done with it. */
export interface PrintedView {
  understood: { printed: string; as: string }[];
  leftOver: readonly string[];
  product: ProductView | null;
  warnings: readonly Problem[];
}

export async function printedQuestion({ label }: { label: string }): Promise<PrintedView | null> {
  if (label.trim() === '') return null;
  const { result, warnings } = await labelsOf({}, { text: label });
  return {
    understood: (result.printed?.understood ?? []).map(({ printed, column, percent }) => ({
      printed,
      as: `${column} ${figure(percent)} %`,
    })),
    leftOver: result.printed?.leftOver ?? [],
    product: productsOf(result)[0] ?? null,
    warnings,
  };
}

/** The text of the shelf with a label, or a plain salt by its name, as one row more. */
export async function addQuestion(asked: { shelf: string; label: string }): Promise<{ shelf: string; id: string }> {
  const shelf = asked.shelf.trim() === '' ? 'id,name,form\n' : asked.shelf;
  const { text, label } = labelOnShelf({ name: 'shelf.csv', text: shelf.replace(/^\uFEFF/, '') }, asked.label);
  return { shelf: shelf.startsWith('\uFEFF') ? `\uFEFF${text}` : text, id: label.id };
}

/** The generic salts that can be put on a shelf by name. */
export async function saltsQuestion(_: Record<string, never>): Promise<Choice[]> {
  return shippedCatalog().salts.map(({ id, name }) => ({ id, name }));
}
