import { barLines } from './text-bars.js';
import { chartLines } from './text-chart.js';
import { tableLines } from './text-table.js';
import { A_SHEET, type Block, blocksAt, type Fact, type Sheet, type Tone } from './sheet.js';
import { padRight, plainText, widthOf, wrap } from './wrap.js';
import { refuseUnlike } from '../wrong-type.js';

/** How a sheet is set as text. Colour is a help only: every mark also stands as a word. */
export interface TextOptions {
  columns: number;
  colour: boolean;
  /** The whole report; without it, its first screen. */
  full?: boolean;
}

const CODES = { bold: 1, bad: 31, good: 32, quiet: 2 } as const;

/** Draws a sheet for a terminal or a file; lines end in `\n`, no line has trailing blanks. */
export function renderText(sheet: Sheet, options: TextOptions): string {
  refuseUnlike({ sheet, options }, { sheet: A_SHEET, options: { columns: 'number' } });
  const columns = Math.max(40, options.columns);
  const paint: Paint = options.colour ? (style, text) => `\u001b[${CODES[style]}m${text}\u001b[0m` : (_, text) => text;
  const lines = [...wrap(plainText(sheet.title), columns).map((line) => paint('bold', line))];
  for (const block of blocksAt(sheet, options.full === true)) {
    // a list belongs to the heading above it; everything else gets air
    const joined = lines.at(-1) === HEADING_END;
    if (joined) lines.pop();
    else lines.push('');
    lines.push(...blockLines(block, columns, paint));
  }
  const tidy = lines.filter((line) => line !== HEADING_END).map((line) => line.replace(/[ \t]+$/, ''));
  return `${tidy.join('\n')}\n`;
}

type Paint = (style: keyof typeof CODES, text: string) => string;

/** Marks that the next block sits right under its heading; never printed. */
const HEADING_END = '\u0000';

function blockLines(block: Block, columns: number, paint: Paint): string[] {
  switch (block.kind) {
    case 'heading':
      return [...wrap(plainText(block.text), columns).map((line) => paint('bold', line)), HEADING_END];
    case 'paragraph':
      return wrap(plainText(block.text), columns).map((line) => toned(line, block.tone ?? 'plain', paint));
    case 'facts':
      return factLines(block.facts, columns);
    case 'table':
      return tableLines(block, columns);
    case 'bars':
      return barLines(block, columns).map(({ text, tone }) => toned(text.trimEnd(), tone, paint));
    case 'chart':
      return chartLines(block, columns);
    case 'list':
      return block.items.flatMap((item) => bullet(item, '-', columns));
    case 'command':
      return [`  ${plainText(block.text)}`];
    case 'cautions':
      return block.items.flatMap((item) => bullet(item, '!', columns));
    default:
      return block satisfies never;
  }
}

function factLines(facts: readonly Fact[], columns: number): string[] {
  const gutter = Math.max(0, ...facts.map((fact) => widthOf(plainText(fact.name)))) + 2;
  return facts.flatMap((fact) =>
    wrap(plainText(fact.value), columns - gutter).map(
      (line, i) => `${padRight(i === 0 ? plainText(fact.name) : '', gutter)}${line}`,
    ),
  );
}

function bullet(text: string, mark: string, columns: number): string[] {
  return wrap(plainText(text), columns - 4).map((line, i) => (i === 0 ? `  ${mark} ${line}` : `    ${line}`));
}

function toned(line: string, tone: Tone, paint: Paint): string {
  return tone === 'plain' || line === '' ? line : paint(tone, line);
}
