import type { SheetPage } from './page.js';

/** Papers that a sheet is laid out for. */
export const PAPERS = ['a4', 'letter', 'a6'] as const;
export type Paper = (typeof PAPERS)[number];

const SIZES: Readonly<Record<Paper, string>> = {
  a4: 'A4 portrait',
  letter: 'letter portrait',
  a6: 'A6 portrait',
};

/** The paper that the printer is asked for. */
export const sizeRule = (paper: Paper | null): string => (paper === null ? '' : `@page{size:${SIZES[paper]}}`);

/** How tightly a sheet is set, so that it keeps to one page: by the lines that its parts will take. */
export function densityOf(page: SheetPage): 'roomy' | 'close' | 'tight' {
  const load = 3 * page.lines.length + page.ladder.length + page.bars.length + linesIn(page) / 2;
  return load < 70 ? 'roomy' : load < 95 ? 'close' : 'tight';
}

/** Lines of running text, at some hundred letters each. */
function linesIn({ alert, unseen, notes, sureness, cautions }: SheetPage): number {
  return [...alert, ...unseen, ...notes, ...sureness, ...cautions].reduce(
    (sum, text) => sum + Math.ceil(text.length / 100),
    0,
  );
}

/** Black on white, no colour needed; sizes hang on one root size that print sets by density and paper. */
export const STYLE = [
  ':root{color-scheme:light dark}',
  '*{box-sizing:border-box}',
  'body{font:16px/1.35 system-ui,sans-serif;margin:0 auto;max-width:60rem;padding:1rem}',
  'h1{font-size:1.7em;margin:0;line-height:1.1}h2{font-size:1em;margin:.7em 0 .2em}p{margin:.2em 0}ul{margin:0;padding-left:1.1em}',
  'header{display:grid;grid-template-columns:1fr max-content;align-items:end;column-gap:1em;border-bottom:.2em solid;padding-bottom:.3em}',
  'header .plants{grid-column:1}header .date{grid-column:2;grid-row:1/span 2;font-size:1.1em}',
  '.line{display:inline-block;border-bottom:1px solid;min-width:9em;height:1.1em}',
  '.alert{border:.2em solid;padding:.3em .6em;margin:.5em 0}',
  'dl.facts{display:grid;grid-template-columns:1fr 1fr;gap:.1em 1.5em;margin:.4em 0}dl.facts div{display:flex;gap:.5em}dt{min-width:4.6em}dd{margin:0;font-weight:600}',
  'table{border-collapse:collapse;font-variant-numeric:tabular-nums}th,td{text-align:left;vertical-align:top;font-weight:400;padding:.1em .5em .1em 0}',
  'table.steps{width:100%;margin-top:.4em}.steps th{font-size:.85em;border-bottom:1px solid;vertical-align:bottom}.steps td{border-bottom:1px solid;padding:.3em .6em .3em 0}',
  '.steps .tick{white-space:nowrap;width:3.4em;font-size:1.15em}.box{display:inline-block;width:1.15em;height:1.15em;border:.13em solid;margin-right:.35em;vertical-align:-.2em}',
  '.steps .amount{font-size:1.35em}.steps .what{font-size:1.15em}.steps small{display:block;font-size:.85em}.steps .do small span+span::before{content:"· "}',
  '.steps .reading{text-align:right;white-space:nowrap;padding-left:.6em}.steps .reading b{font-size:1.35em}.steps .second b{font-size:1em;font-weight:400}',
  '.steps .read{width:6em}.steps .read .line{min-width:5em;width:100%;height:1.6em}',
  '.tolerance{font-size:.85em}',
  '.columns{columns:2;column-gap:1.6em}.columns section{break-inside:avoid}.columns section:first-child h2{margin-top:.2em}',
  '.columns th{white-space:nowrap}.columns thead th{font-size:.85em;border-bottom:1px solid}tr.right>*{font-weight:700;border-top:1px solid;border-bottom:1px solid}tr.out>*{font-weight:700}',
  '.ec,.number{white-space:nowrap}.number{text-align:right}.can td,.can th{padding-top:0;padding-bottom:0;vertical-align:middle}.can svg{display:block;height:1em;width:auto}',
  '.cautions{border:1px solid;padding:.2em .7em .4em;margin-top:.7em}.cautions h2{margin-top:.1em}.cautions ul{columns:2;column-gap:1.6em;font-size:.85em}.cautions li{break-inside:avoid}',
  'footer{margin-top:.6em}footer p{display:flex;gap:1em;margin:.7em 0 0}footer .blank{flex:1;display:flex;gap:.4em;white-space:nowrap}footer .line{flex:1;min-width:2em}',
  '.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}',
  '@media(max-width:40rem){.columns,.cautions ul{columns:1}dl.facts{grid-template-columns:1fr}}',
  '@page{margin:10mm}',
  '@media print{',
  ':root{color-scheme:light}body{margin:0;padding:0;max-width:none;font-size:10.4pt;line-height:1.25}article+article{break-before:page}tr,li{break-inside:avoid}',
  'article.close{font-size:.93em}article.tight{font-size:.84em}',
  '.columns{columns:2}dl.facts{grid-template-columns:1fr 1fr}.cautions ul{columns:2}',
  '}',
  // a card beside the sink: what is needed while mixing; A6 is 105 mm wide, A5 would be 148
  '@media print and (max-width:125mm){',
  '@page{margin:5mm}',
  'body{font-size:7.6pt;line-height:1.15}.columns,.cautions ul{columns:1}',
  'dl.facts{grid-template-columns:1fr;gap:0}.facts div:nth-child(n+4){display:none}.facts dd{font-weight:400}',
  '.second,.columns section:not(.keeps),.tolerance{display:none}.steps .read{width:4em}.steps .read .line{min-width:3em}',
  '.line{min-width:6em}.cautions li:nth-child(n+2):not(:nth-last-child(-n+3)){display:none}.cautions ul{font-size:.9em}',
  '}',
].join('');
