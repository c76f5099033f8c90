import { atDoor } from '../door.js';
import { weighCommand } from './says/doses.js';
import { phSays } from './says/solution.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import { cloudingSays } from './says/clouding.js';
import type { LabelFacts } from '../can/label-facts.js';
import type { LabelLine } from '../label/label-line.js';
import type { PrintedLabel } from '../label/printed-label.js';
import { problemLine } from '../problem.js';
import { figure } from './figures.js';
import { leftOpenSays } from './says/left-open.js';
import { nitrogenText } from './mix.js';
import type { Storage } from '../year/storage.js';
import { storageBlocks } from './storage.js';
import { type Block, facts, heading, inFull, list, paragraph, section, type Sheet, table } from './sheet.js';

/** What `labels` answers. */
export interface LabelsResult {
  status: 'read';
  shelf: string;
  products: Line[];
  /** Where a printed text was read: what each of its figures was taken for, and those beside which no nutrient stands. */
  printed?: Pick<PrintedLabel, 'understood' | 'leftOver'>;
  /** Where a label was put on the shelf: its id there, and the file. */
  added?: { id: string; file: string };
  /** What the shelf does not say of its products, each kind once. */
  missing: Missing[];
  /** How each is kept. */
  storage: Storage[];
}

/** Products of which one thing is not known, by their ids. */
export interface Missing {
  of: 'bulk density' | 'price' | 'sources';
  products: string[];
}

/** What is not said, what it takes, and how it gets on the shelf. */
export function missingSays({ of, products }: Missing): string {
  const ids = products.join(', ');
  switch (of) {
    case 'bulk density':
      return atDoor({
        typed: `No bulk density: ${ids}. No spoon measures them until you weigh ten, fill in the grams: ${weighCommand(products[0]!, '1/4 tsp')} (or by the pen: velamen meter --calibrate --product ${products[0]}).`,
        page: `No bulk density: ${ids}. No spoon measures them until you weigh ten level ones: it is asked beside each jar on the shelf.`,
      });
    case 'price':
      return `No price: ${ids}. They count as the dearest of the shelf until columns price and pack say what a pack costs.`;
    case 'sources':
      return `No list of salts: ${ids}. EC and what comes with the elements stay wide until column derived_from has what the label says it is made from.`;
    default:
      return of satisfies never;
  }
}

/** What 1 g/L or 1 mL/L of each product brings, and what its label leaves open. */
export function labelsSheet(result: LabelsResult): Sheet {
  const { products } = result;
  const told = [
    ...products.flatMap(details),
    paragraph('pH is an estimate, for pure water, which has no buffer of its own.', 'quiet'),
  ];
  return {
    title: result.added
      ? `${result.added.id} stands on ${result.added.file} now`
      : `What the labels of ${result.shelf} mean`,
    blocks: [
      paragraph(
        'mg of each element in a litre, and mS/cm (EC), from 1 g (powder) or 1 mL (liquid) in pure water at 25 °C. A range is what the label leaves open; those of EC and pH count what makers may miss their figures by, too.',
      ),
      overview(products),
      ...(result.printed && result.printed.understood.length > 0 ? printedText(result.printed) : []),
      ...section('What is wrong with the labels', products.flatMap(wrong)),
      ...section('What the shelf does not say', result.missing.map(missingSays)),
      ...(products.length === 1 ? told : inFull(told)),
      ...inFull(storageBlocks(result.storage)),
    ],
  };
}

/** What was understood beside what was printed. */
function printedText({ understood, leftOver }: NonNullable<LabelsResult['printed']>): Block[] {
  const rows = understood.map(({ printed, column, percent }) => [printed, `${column} ${figure(percent)} %`]);
  const left = leftOver.map((text) => `"${text}" stands beside no nutrient, and is not used.`);
  return [heading('As it was read'), table(['printed', 'taken for'], rows), ...(left.length > 0 ? [list(left)] : [])];
}

/** Products down, elements across; elements that no product holds are left out. */
function overview(products: LabelsResult['products']): Block {
  const present = NUTRIENTS.filter((n) => products.some((p) => p.elements.some((e) => e.element === n)));
  const rows = products.map((product) => {
    const cells = present.map((n) => {
      const found = product.elements.find((e) => e.element === n);
      if (!found) return '';
      const { low, high } = found.closed ?? found;
      return high > low * (1 + 1e-9) ? `${figure(low)}–${figure(high)}` : figure(found.mgPerLitre ?? low);
    });
    return [product.id, product.per, ecCell(product), ...cells];
  });
  return table(['', 'per', '>EC', ...present.map((n) => `>${n}`)], rows);
}

/** mS/cm from 1 g/L or 1 mL/L. */
function ecCell({ ec }: LabelFacts): string {
  return figure(ec.low) === figure(ec.high) ? figure(ec.mSPerCm) : `${figure(ec.low)}–${figure(ec.high)}`;
}

const EC_FROM: Readonly<Record<LabelFacts['ec']['from'], string>> = {
  measured: 'measurement, as the shelf says',
  formula: 'its formula',
  sources: 'the salts it names',
  'label alone': 'what makers are likely to put behind such a label',
};

/** `about 0.979 mS/cm (0.941 to 1.06) from 1 g/L, by the salts it names`. */
function ecText({ ec, per }: Line): string {
  const range = figure(ec.low) === figure(ec.high) ? '' : ` (${figure(ec.low)} to ${figure(ec.high)})`;
  return `about ${figure(ec.mSPerCm)} mS/cm${range} from 1 ${per}, by ${EC_FROM[ec.from]}`;
}

function phText({ ph, per }: Line): string {
  return `${phSays(ph)}, at 1 ${per}`;
}

function cloudingText({ precipitation, per }: Line): string {
  const cloudy = precipitation.filter((line) => line.verdict !== 'clear').map(cloudingSays);
  return cloudy.length === 0 ? `stays clear at 1 ${per}` : `at 1 ${per}: ${cloudy.join(' ')}`;
}

type Line = LabelLine & LabelFacts;

function acidityText({ acidity, per }: LabelFacts & Pick<LabelLine, 'per'>): string {
  if (Math.abs(acidity) < 0.5) return 'no potential acidity or basicity';
  const unit = per === 'g/L' ? 'kg' : 'litre';
  return `potential ${acidity > 0 ? 'acidity' : 'basicity'} ${figure(Math.abs(acidity))} g CaCO3 per ${unit}`;
}

const wrong = ({ problems }: Line): string[] => problems.map(problemLine);

function details(product: Line): Block[] {
  const blocks: Block[] = [];
  const nitrogen = product.nitrogenShares === null ? null : nitrogenText(product.nitrogenShares);
  blocks.push(
    facts(
      ['nitrogen', nitrogen],
      ['EC', ecText(product)],
      ['pH', phText(product)],
      ['in water', cloudingText(product)],
      ['over time', acidityText(product)],
    ),
  );
  if (product.open.length > 0) blocks.push(list(product.open.map(leftOpenSays)));
  return blocks.length === 0
    ? []
    : [heading(product.name === product.id ? product.id : `${product.id}: ${product.name}`), ...blocks];
}
