import type { MixingSheet } from '../../sheet/sheet-types.js';
import { escapeMarkup as safe } from '../escape.js';
import { figure, percent } from '../figures.js';
import { htmlPage } from '../html-page.js';
import { plainText, widthOf, wrap } from '../wrap.js';
import { withinSays } from '../says/keeping.js';
import { dilutionHazardsSay } from '../says/cautions.js';
import { volumeText } from '../volume.js';
import { mSPerCm, range, shown } from './readings.js';
import { formatFixed } from '../../units/index.js';
import { refuseUnlike } from '../../wrong-type.js';
import { A_MIXING_SHEET } from './page.js';

/** What stands on the jug: the feed, what is in it, when it was made, and that it is no drink. */
function labelLines(sheet: MixingSheet): string[] {
  const { feed, nitrogen, end, pen, keeps, litres } = sheet;
  const ammonium = nitrogen.ammoniumShare === null ? '' : `, ammonium ${percent(nitrogen.ammoniumShare)} of it`;
  return [
    `${feed.name}: PLANT FEED, ready to use`,
    `for ${feed.plants} in ${feed.medium}`,
    ...(sheet.status === 'kept' ? [] : ['DOES NOT KEEP EVERY LIMIT: see its mixing sheet']),
    `In ${volumeText(litres)}: ${sheet.steps.map((step) => `${step.measures[0].words} ${step.name}`).join('; ')}`,
    `Nitrogen ${figure(nitrogen.mgPerLitre)} mg/L${ammonium}`,
    `Reads ${shown(end.reading, pen)} (${range(end.reading, pen)})${pen === 'EC' ? '' : ` on the ${pen} scale, ${mSPerCm(end.reading.mSPerCm)}`}, pH about ${formatFixed(end.ph.asMixed, 1)}`,
    ...(sheet.code === null ? [] : [`Code ${sheet.code}`]),
    `Mixed on: ${sheet.date ?? '______________'}   Use ${withinSays(keeps.hours)}`,
    dilutionHazardsSay(sheet.hazards),
    'NOT FOR DRINKING. Keep from children and pets. Not for food crops.',
  ];
}

/** Labels to cut out, as text in a frame. */
export function labelText(sheets: readonly MixingSheet[]): string {
  refuseUnlike({ sheets }, { sheets: [A_MIXING_SHEET] });
  const inner = 56;
  const rule = `+${'-'.repeat(inner + 2)}+`;
  return sheets
    .map((sheet) => {
      const lines = labelLines(sheet).flatMap((line) => wrap(plainText(line), inner));
      return [rule, ...lines.map((line) => `| ${line}${' '.repeat(inner - widthOf(line))} |`), rule, ''].join('\n');
    })
    .join('\n');
}

/** Labels to cut out, as a page. */
export function labelHtml(sheets: readonly MixingSheet[]): string {
  refuseUnlike({ sheets }, { sheets: [A_MIXING_SHEET] });
  const boxes = sheets.map((sheet) => {
    const [title, ...lines] = labelLines(sheet);
    return `<article><h1>${safe(title!)}</h1>${lines.map((line) => `<p>${safe(line)}</p>`).join('')}</article>`;
  });
  return htmlPage(sheets.map((sheet) => `${sheet.feed.name}: label`).join(' · '), LABEL_STYLE, boxes);
}

const LABEL_STYLE = [
  'body{font:12pt/1.3 system-ui,sans-serif;margin:10mm;background:#fff;color:#000}',
  'article{border:2px solid;box-sizing:border-box;width:90mm;padding:4mm;margin:0 0 6mm;break-inside:avoid;max-width:100%;overflow-wrap:break-word}',
  'h1{font-size:15pt;margin:0 0 1mm}p{margin:1mm 0}p:last-child{font-weight:700}',
].join('');
