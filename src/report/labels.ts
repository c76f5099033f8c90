import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { LabelLine } from '../label/label-line.js';
import { problemLine } from '../problem.js';
import { figure } from './figures.js';
import { nitrogenText } from './mix.js';
import { type Block, facts, heading, list, paragraph, type Sheet, table } from './sheet.js';

/** What `labels` answers. */
export interface LabelsResult {
  schema: 'velamen.labels/1';
  status: 'read';
  shelf: string;
  products: LabelLine[];
}

/** What 1 g/L or 1 mL/L of each product brings, and what its label leaves open. */
export function labelsSheet(result: LabelsResult): Sheet {
  const { products } = result;
  return {
    title: `What the labels of ${result.shelf} mean`,
    blocks: [
      paragraph(
        'mg of each element in a litre, from 1 g (powder) or 1 mL (liquid). A range is what the label leaves open.',
      ),
      overview(products),
      ...products.flatMap(details),
    ],
  };
}

/** Products down, elements across; elements that no product holds are left out. */
function overview(products: readonly LabelLine[]): Block {
  const present = NUTRIENTS.filter((n) => products.some((p) => p.elements.some((e) => e.element === n)));
  const rows = products.map((product) => {
    const cells = present.map((n) => {
      const found = product.elements.find((e) => e.element === n);
      if (!found) return '';
      const { low, high } = found;
      return high > low * (1 + 1e-9) ? `${figure(low)}–${figure(high)}` : figure(found.mgPerLitre ?? low);
    });
    return [product.id, product.per, ...cells];
  });
  return table(['', 'per', ...present.map((n) => `>${n}`)], rows);
}

function details(product: LabelLine): Block[] {
  const blocks: Block[] = [];
  if (product.nitrogenShares !== null) blocks.push(facts(['nitrogen', nitrogenText(product.nitrogenShares)]));
  const says = [...product.open, ...product.problems.map(problemLine)];
  if (says.length > 0) blocks.push(list(says));
  return blocks.length === 0
    ? []
    : [heading(product.name === product.id ? product.id : `${product.id}: ${product.name}`), ...blocks];
}
