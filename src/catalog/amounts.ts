import { type Problem, problem, type Where } from '../problem.js';
import { type Amount, isWithin, parseAmount, rangeText } from '../units/index.js';
import type { Row } from './table.js';

/** Grams for a powder, millilitres for a liquid; a liquid's grams become millilitres by its density. */
export interface Measured {
  form: 'powder' | 'liquid';
  /** g/mL of a liquid, where known. */
  density?: number;
}

/** `450 g` of a powder, `250 mL` of a liquid, in g or mL; undefined where the cell is empty or refused. */
export function amountCell(
  row: Row,
  column: string,
  name: 'pack' | 'onHand',
  product: Measured,
  problems: Problem[],
): number | undefined {
  const text = row.text(column);
  if (text === undefined) return undefined;
  const where = row.where(column);
  const amount = readAmount(text, where, row.decimalComma, problems);
  const value =
    amount?.kind === 'mass'
      ? byForm(amount.grams, 'mass', text, where, product, problems)
      : amount?.kind === 'volume'
        ? byForm(amount.millilitres, 'volume', text, where, product, problems)
        : undefined;
  if (amount && amount.kind !== 'mass' && amount.kind !== 'volume')
    problems.push(wrongKind(text, where, product, false));
  return within(name, value, text, where, problems);
}

/** `2 g/L` of a powder, `1.5 mL/L` of a liquid, in g/L or mL/L. */
export function rateCell(row: Row, column: string, product: Measured, problems: Problem[]): number | undefined {
  const text = row.text(column);
  if (text === undefined) return undefined;
  const where = row.where(column);
  const amount = readAmount(text, where, row.decimalComma, problems);
  const value =
    amount?.kind === 'mass per volume'
      ? byForm(amount.gramsPerLitre, 'mass', text, where, product, problems, true)
      : amount?.kind === 'volume per volume'
        ? byForm(amount.millilitresPerLitre, 'volume', text, where, product, problems, true)
        : undefined;
  if (amount && amount.kind !== 'mass per volume' && amount.kind !== 'volume per volume')
    problems.push(wrongKind(text, where, product, true));
  return within('rate', value, text, where, problems);
}

/** The value where it lies within its bounds; nothing at all is told by its own problem. */
function within(
  name: 'pack' | 'onHand' | 'rate',
  value: number | undefined,
  text: string,
  where: Where,
  problems: Problem[],
): number | undefined {
  if (value === undefined || value === 0 || isWithin(name, value)) return value;
  problems.push(
    problem('amount-range', where, `"${text}"`, `an amount ${rangeText(name)}`, 'Check the number and its unit.'),
  );
  return undefined;
}

/** An amount of any kind; a decimal comma is natural where cells are separated by `;`. */
export function readAmount(text: string, where: Where, decimalComma: boolean, problems: Problem[]): Amount | undefined {
  const read = parseAmount(text, { where, decimalComma });
  problems.push(...(read.ok ? read.warnings : read.problems));
  return read.ok ? read.value : undefined;
}

function byForm(
  value: number,
  kind: 'mass' | 'volume',
  text: string,
  where: Where,
  product: Measured,
  problems: Problem[],
  rate = false,
): number | undefined {
  if ((product.form === 'powder') === (kind === 'mass')) return value;
  if (product.form === 'liquid' && product.density !== undefined) return value / product.density;
  problems.push(wrongKind(text, where, product, rate));
  return undefined;
}

function wrongKind(text: string, where: Where, product: Measured, rate: boolean): Problem {
  const per = rate ? '/L' : '';
  return product.form === 'powder'
    ? problem(
        'amount-kind',
        where,
        `"${text}" of a powder`,
        `a weight${rate ? ' per volume' : ''}`,
        `Weigh it and write g${per}.`,
      )
    : problem(
        'amount-kind',
        where,
        `"${text}" of a liquid`,
        `a volume${rate ? ' per volume' : ''}, or a weight with the density given`,
        `Write mL${per}, or fill in density (g/mL).`,
      );
}
