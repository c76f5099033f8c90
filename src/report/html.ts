import { openTop, standing } from './band.js';
import { chartHtml } from './chart-svg.js';
import { escapeMarkup as safe } from './escape.js';
import { figure } from './figures.js';
import { htmlPage } from './html-page.js';
import { A_SHEET, type Bar, type Block, blocksAt, type Sheet, type Table } from './sheet.js';
import { barSvg } from './svg.js';
import { refuseUnlike } from '../wrong-type.js';

/**
 * All sheets as a whole page in one file: nothing is fetched, nothing runs, it prints on paper.
 * @param options `full`: the whole reports; without it, what their first screens hold
 * @param pictures SVG below them
 */
export function renderHtml(
  sheets: readonly Sheet[],
  options: { full?: boolean } = {},
  pictures: readonly string[] = [],
): string {
  refuseUnlike({ sheets, options, pictures }, { sheets: [A_SHEET], options: 'object', pictures: ['text'] });
  const articles = sheets.flatMap((sheet) => [
    '<article>',
    `<h1>${safe(sheet.title)}</h1>`,
    ...blocksAt(sheet, options.full === true).map(blockHtml),
    '</article>',
  ]);
  return htmlPage(sheets.map((sheet) => sheet.title).join(' · '), STYLE, [...articles, ...pictures]);
}

/** One block as a fragment, for a page that sets its own frame. */
function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${safe(block.text)}</h2>`;
    case 'paragraph':
      return `<p class="${block.tone ?? 'plain'}">${safe(block.text)}</p>`;
    case 'facts':
      return `<dl>${block.facts.map((f) => `<dt>${safe(f.name)}</dt><dd>${safe(f.value)}</dd>`).join('')}</dl>`;
    case 'table':
      return tableHtml(block);
    case 'bars':
      return barsHtml(block.unit, block.bars);
    case 'chart':
      return chartHtml(block);
    case 'list':
      return listHtml(block.items, 'list');
    case 'command':
      return `<pre><code>${safe(block.text)}</code></pre>`;
    case 'cautions':
      return listHtml(block.items, 'cautions');
    default:
      return block satisfies never;
  }
}

function tableHtml(table: Table): string {
  const row = (cells: readonly string[], tag: 'th' | 'td'): string =>
    `<tr>${table.columns
      .map((column, i) => `<${tag}${column.align === 'right' ? ' class="right"' : ''}>${safe(cells[i] ?? '')}</${tag}>`)
      .join('')}</tr>`;
  const foot = table.total ? `<tfoot>${row(table.total, 'td')}</tfoot>` : '';
  const head = row(
    table.columns.map((column) => column.head),
    'th',
  );
  return `<table><thead>${head}</thead><tbody>${table.rows.map((r) => row(r, 'td')).join('')}</tbody>${foot}</table>`;
}

/** For a value without a band: how high it may really be. */
export function openWords(bar: Bar): string {
  const top = openTop(bar);
  return top === null ? '' : `may be up to ${figure(top)}`;
}

function barsHtml(unit: string, bars: readonly Bar[]): string {
  const cell = (value: number | null): string => `<td class="right">${value === null ? '' : safe(figure(value))}</td>`;
  const rows = bars.map((bar) => {
    const word = standing(bar);
    const mark = word === 'low' || word === 'high' ? ' class="bad"' : '';
    return `<tr${mark}><th scope="row">${safe(bar.name)}</th>${[bar.value, bar.min, bar.aim, bar.max].map(cell).join('')}<td>${barSvg(bar)}</td><td>${safe(word || openWords(bar))}</td></tr>`;
  });
  const head = ['', 'mix', 'least', 'aim', 'most'].map(
    (h, i) => `<th${i > 0 ? ' class="right"' : ''}>${i === 0 ? safe(unit) : h}</th>`,
  );
  return `<table><thead><tr>${head.join('')}<th></th><th></th></tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

function listHtml(items: readonly string[], name: string): string {
  return `<ul class="${name}">${items.map((item) => `<li>${safe(item)}</li>`).join('')}</ul>`;
}

const STYLE = [
  ':root{color-scheme:light dark}',
  'body{font:16px/1.45 system-ui,sans-serif;margin:2rem auto;max-width:52rem;padding:0 1rem}',
  'h1{font-size:1.5rem}h2{font-size:1.1rem;margin:1.6rem 0 .4rem}',
  'table{border-collapse:collapse;font-variant-numeric:tabular-nums}',
  'th,td{padding:.15rem .7rem .15rem 0;text-align:left;vertical-align:middle;font-weight:400}',
  'thead th{border-bottom:1px solid;opacity:.75}tfoot td{border-top:1px solid}.right{text-align:right}',
  'tr.bad th,tr.bad td,p.bad{font-weight:700}p.quiet{opacity:.75}',
  'dl{display:grid;grid-template-columns:max-content 1fr;gap:.1rem 1rem}dd{margin:0}dt{opacity:.75}',
  'ul.cautions{border:1px solid;padding:.6rem .6rem .6rem 1.8rem}',
  'figure{margin:.6rem 0;break-inside:avoid}figure svg{max-width:100%;height:auto}figcaption{opacity:.75;font-size:.9em}',
  '@media print{article+article{break-before:page}body{margin:0;font-size:11pt}h2{break-after:avoid}tr,li{break-inside:avoid}}',
].join('');
