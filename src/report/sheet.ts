import type { Shape } from '../wrong-type.js';

/** The one model behind every report: text, CSV, HTML and SVG are drawn from it, so they cannot disagree. */
export interface Sheet {
  title: string;
  blocks: Block[];
}

/** What a caller without types has to bring as one. */
export const A_SHEET = { title: 'text', blocks: ['object'] } as const satisfies Shape;

export type Block = (
  | { kind: 'heading'; text: string }
  | { kind: 'paragraph'; text: string; tone?: Tone }
  | { kind: 'facts'; facts: Fact[] }
  | Table
  | { kind: 'bars'; unit: string; bars: Bar[] }
  | Chart
  | { kind: 'list'; items: string[] }
  | { kind: 'cautions'; items: string[] }
  /** To be pasted into a shell, so never broken. */
  | { kind: 'command'; text: string }
) & {
  /** Told only where the whole report is asked for: text and pages leave it out, CSV never does. */
  full?: true;
};

/** Colour helps where there is any; the words must do without it. */
export type Tone = 'plain' | 'good' | 'bad' | 'quiet';

/** A name with what stands under it, for the head of a sheet. */
export interface Fact {
  name: string;
  value: string;
}

/** Cells are finished text. Numbers are aligned right by their column. */
export interface Table {
  kind: 'table';
  columns: TableColumn[];
  rows: string[][];
  /** A closing line, set apart. */
  total?: string[];
}

export interface TableColumn {
  head: string;
  align: 'left' | 'right';
}

/** Values along a row of labels: `bars` of one series, or a line that steps for each of several. Text, page and CSV draw the same figures. */
export interface Chart {
  kind: 'chart';
  shape: 'bars' | 'line';
  /** What the row of labels is, and what the values are in where a series does not say. */
  along: string;
  labels: string[];
  series: { name: string; unit: string; values: number[] }[];
  /** Labels that are drawn hollow, and what that means. */
  hollow?: { means: string; at: boolean[] };
}

/** One value against its band. An absent end is open; low…high is what the labels leave open around the value. */
export interface Bar {
  name: string;
  value: number;
  low: number;
  high: number;
  min: number | null;
  aim: number | null;
  max: number | null;
}

export const heading = (text: string): Block => ({ kind: 'heading', text });
export const paragraph = (text: string, tone: Tone = 'plain'): Block => ({ kind: 'paragraph', text, tone });
export const facts = (...pairs: (readonly [string, string | null])[]): Block => ({
  kind: 'facts',
  facts: pairs.flatMap(([name, value]) => (value === null || value === '' ? [] : [{ name, value }])),
});
export const list = (items: readonly string[]): Block => ({ kind: 'list', items: [...items] });

/** A table from columns written `head` (left) or `>head` (right). */
export function table(heads: readonly string[], rows: string[][], total?: string[]): Table {
  const columns = heads.map(
    (head): TableColumn => (head.startsWith('>') ? { head: head.slice(1), align: 'right' } : { head, align: 'left' }),
  );
  return { kind: 'table', columns, rows, ...(total ? { total } : {}) };
}

/** Blocks that belong to the whole report, not to its first screen. */
export const inFull = (blocks: readonly Block[]): Block[] => blocks.map((block) => ({ ...block, full: true }));

/** The blocks to be set: all of them, or those of the first screen. */
export const blocksAt = (sheet: Sheet, full: boolean): Block[] => sheet.blocks.filter((block) => full || !block.full);

/** A heading with a list under it; nothing at all when there is nothing to say. */
export function section(title: string, items: readonly string[]): Block[] {
  return items.length === 0 ? [] : [heading(title), list(items)];
}

/** A clause set as a sentence. */
export function spoken(clause: string): string {
  const start = clause.charAt(0).toUpperCase() + clause.slice(1);
  return /[.!?]$/.test(start) ? start : `${start}.`;
}
