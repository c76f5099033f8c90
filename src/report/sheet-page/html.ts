import type { NoSheet, SheetOfFeed } from '../../sheet/sheet-types.js';
import { escapeMarkup } from '../escape.js';
import { figure } from '../figures.js';
import { htmlPage } from '../html-page.js';
import { standing } from '../band.js';
import type { Bar } from '../sheet.js';
import { barSvg } from '../svg.js';
import { fitOf } from './fit.js';
import type { Rung } from './ladder.js';
import type { LineOnPage } from './lines.js';
import { noSheetPage } from './no-sheet.js';
import { BESIDE } from '../given.js';
import { pageOf, type SheetPage } from './page.js';
import { PAPERS, type Paper, STYLE, sizeRule } from './style.js';
import { refuseUnlike, wrongType } from '../../wrong-type.js';
import { Refusal } from '../../problem.js';

/**
 * Mixing sheets as a whole page in one file: nothing is fetched, nothing runs. Each sheet prints on one page of A4 or Letter; on A6 (a
 * card beside the sink) what is needed while mixing stays, the rest gives way.
 * @param paper the size that the printer is asked for; null leaves it to the printer
 */
export function sheetHtml(sheets: readonly SheetOfFeed[], paper: Paper | null = null): string {
  refuseUnlike({ sheets }, { sheets: [{ status: 'text', feed: { name: 'text' } }] });
  if (paper !== null && !PAPERS.includes(paper)) throw new Refusal([wrongType('paper', paper, PAPERS.join(', '))]);
  const parts = sheets.map((sheet) => (sheet.status === 'cannot' ? without(sheet) : article(pageOf(sheet))));
  return htmlPage(
    parts.map(({ title }) => title).join(' · '),
    `${STYLE}${sizeRule(paper)}`,
    parts.map(({ html }) => html),
  );
}

/** Safe markup, in which a word that no line holds may be broken; no other is. */
const safe = (text: string): string =>
  escapeMarkup(text).replace(/[^\s<>&;-]{25,}/g, (word) => word.match(/.{1,12}/gu)!.join('<wbr>'));

function without(sheet: NoSheet): { title: string; html: string } {
  const { title, plants, alert, notes } = noSheetPage(sheet);
  const html = [
    '<article>',
    `<header><h1>${safe(title)}</h1><p class="plants">${safe(plants)}</p></header>`,
    `<div class="alert"><p><b>${safe(alert[0])}</b></p>${list(alert.slice(1))}</div>`,
    part('notes', 'Notes', list(notes), notes.length > 0),
    '</article>',
  ].join('\n');
  return { title, html };
}

function article(page: SheetPage): { title: string; html: string } {
  const fit = fitOf(page);
  const html = [
    `<article style="--page:${fit.page};--small:${fit.small};--card:${fit.card}">`,
    '<header>',
    `<h1>${safe(page.title)}</h1>`,
    `<p class="plants">${safe(page.plants)}</p>`,
    `<p class="date">Date ${page.date === null ? '<span class="line"></span>' : `<b>${safe(page.date)}</b>`}</p>`,
    '</header>',
    ...(page.alert.length === 0
      ? []
      : [`<div class="alert"><p><b>${safe(page.alert[0]!)}</b></p>${list(page.alert.slice(1))}</div>`]),
    ...(page.wayOut === null ? [] : [`<p class="way">${safe(page.wayOut)}</p>`]),
    ...(page.weigh === null
      ? []
      : [
          `<p class="way">${safe(page.weigh.says)}</p>`,
          ...page.weigh.commands.map((one) => `<p><code>${safe(one)}</code></p>`),
        ]),
    `<dl class="facts">${page.facts.map((f) => `<div><dt>${safe(f.name)}</dt><dd>${safe(f.value)}</dd></div>`).join('')}</dl>`,
    ...page.bottles.map(({ title, steps: once }) =>
      part('bottle', title, `<ol>${once.map((one) => `<li>${safe(one)}</li>`).join('')}</ol>`),
    ),
    steps(page),
    `<p class="tolerance">${safe(page.tolerance)}</p>`,
    ...(page.tickOff === null ? [] : [`<p class="tick-off">${safe(page.tickOff)}</p>`]),
    `<p class="run"><b>If the reading at the end is off</b> ${page.ladder.map(runIn).join(' · ')}</p>`,
    '<div class="columns">',
    '<div>',
    part('ladder', 'If the reading at the end is off', ladder(page)),
    part('sure', 'How sure', list(page.sureness), page.sureness.length > 0),
    part('beside', BESIDE, besideTable(page.beside), page.beside !== null),
    part('notes', 'Notes', list(page.notes), page.notes.length > 0),
    '</div>',
    '<div>',
    part('can', 'In the can as measured, against what the plants want', bars(page.bars), page.bars.length > 0),
    part('unseen', 'What the pen cannot see', list(page.unseen)),
    part('keeps', 'How long it keeps', `<p>${safe(page.keeps)}</p>`),
    '</div>',
    '</div>',
    part('cautions', 'Take care', list(page.cautions)),
    BLANKS,
    '</article>',
  ].join('\n');
  return { title: page.title, html };
}

const part = (name: string, title: string, body: string, there = true): string =>
  there ? `<section class="${name}"><h2>${safe(title)}</h2>${body}</section>` : '';

/** What a few cents buy, as a small table. */
function besideTable(beside: SheetPage['beside']): string {
  if (beside === null) return '';
  const head = beside.heads.map((text) => (text === '' ? '<td></td>' : `<th scope="col">${safe(text)}</th>`)).join('');
  const rows = beside.rows.map(([name = '', ...cells]) => {
    const figures = cells.map((cell) => `<td>${safe(cell)}</td>`).join('');
    return `<tr><th scope="row">${safe(name)}</th>${figures}</tr>`;
  });
  const note = beside.note === null ? '' : `<p>${safe(beside.note)}</p>`;
  return `<table class="few"><thead><tr>${head}</tr></thead><tbody>${rows.join('')}</tbody></table>${note}`;
}

const list = (items: readonly string[]): string =>
  items.length === 0 ? '' : `<ul>${items.map((item) => `<li>${safe(item)}</li>`).join('')}</ul>`;

function steps(page: SheetPage): string {
  const second = page.twoScales ? '<th scope="col" class="reading second">mS/cm</th>' : '';
  return [
    '<table class="steps">',
    `<thead><tr><th scope="col" class="tick">done</th><th scope="col">into the can, in this order</th><th scope="col" class="reading">${safe(page.pen)}</th>${second}<th scope="col" class="read">you read</th></tr></thead>`,
    '<tbody>',
    ...page.lines.map((line) => stepRow(line, page)),
    '</tbody>',
    '</table>',
  ].join('\n');
}

function stepRow(line: LineOnPage, { twoScales, pen }: Pick<SheetPage, 'twoScales' | 'pen'>): string {
  const small = [line.others, line.effect, line.how].filter((text) => text !== '');
  const reading = (value: string, range: string, name: string, unit: string): string =>
    `<td class="${name}" data-unit="${escapeMarkup(unit)}"><b>${safe(value)}</b><small>${safe(range)}</small></td>`;
  const cells =
    line.reading === null
      ? `<td class="reading"></td>${twoScales ? '<td class="reading second"></td>' : ''}<td class="read"></td>`
      : `${reading(line.reading.pen, line.reading.range, 'reading', pen)}${
          twoScales ? reading(line.reading.ec, line.reading.ecRange, 'reading second', 'mS/cm') : ''
        }<td class="read"><span class="line"></span></td>`;
  return `<tr><td class="tick"><span class="box"></span>${line.step ?? ''}</td><td class="do"><b class="amount">${safe(line.amount)}</b> <span class="what">${safe(line.what)}</span>${
    small.length === 0 ? '' : `<small>${small.map((text) => `<span>${safe(text)}</span>`).join(' ')}</small>`
  }</td>${cells}</tr>`;
}

/** A rung within a running text, for the card. */
const runIn = ({ pen, says, right }: Rung): string => {
  const text = `<b>${safe(pen)}</b> ${safe(says)}`;
  return right ? `<u>${text}</u>` : text;
};

function ladder(page: SheetPage): string {
  const rows = page.ladder.map(
    ({ pen, ec, says, right }) =>
      `<tr${right ? ' class="right"' : ''}><th scope="row">${safe(pen)}</th>${page.twoScales ? `<td class="ec">${safe(ec)}</td>` : ''}<td>${safe(says)}</td></tr>`,
  );
  return `<table><thead><tr><th scope="col">${safe(page.pen)}</th>${page.twoScales ? '<th scope="col" class="ec">mS/cm</th>' : ''}<th scope="col">what it may be</th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

function bars(all: readonly Bar[]): string {
  const rows = all.map((bar) => {
    const word = standing(bar);
    const outside = word === 'low' || word === 'high';
    return `<tr${outside ? ' class="out"' : ''}><th scope="row">${safe(bar.name)}</th><td class="number">${safe(figure(bar.value))}</td><td>${barSvg(bar)}</td><td>${safe(outside ? word.toUpperCase() : word)}</td></tr>`;
  });
  return `<table><thead><tr><th scope="col">mg/L</th><th scope="col" class="number">mix</th><th scope="col">least, aim, most</th><th scope="col"><span class="hidden">standing</span></th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

const blank = (name: string): string => `<span class="blank">${name} <span class="line"></span></span>`;
const BLANKS = `<footer><p>${['Reading', 'Temperature', 'pH', 'Mixed by'].map(blank).join('')}</p><p>${blank('Notes')}</p></footer>`;
