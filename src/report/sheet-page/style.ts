/** Papers that a sheet is laid out for. */
export const PAPERS = ['a4', 'letter', 'a6'] as const;
export type Paper = (typeof PAPERS)[number];

const SIZES: Readonly<Record<Paper, string>> = {
  a4: '210mm 297mm',
  letter: '8.5in 11in',
  a6: '105mm 148mm',
};

/** The paper that the printer is asked for. */
export const sizeRule = (paper: Paper | null): string =>
  paper === null ? '' : `@page{size:${SIZES[paper]}}${paper === 'a6' ? `@media print{${CARD}}` : ''}`;

/** A card beside the sink: what is needed while mixing stays, the rest gives way. */
const CARD = [
  '@page{margin:5mm}',
  'article{font-size:calc(var(--card)*7.2pt);line-height:1.1;padding-right:.6mm}.columns,.columns>div{display:block}.columns{font-size:.84em}.cautions ul{columns:1}',
  'dl.facts{grid-template-columns:1fr;gap:0}.facts div:first-child,.facts div:nth-child(n+5){display:none}.facts dd{font-weight:400}',
  '.second,.columns section:not(.keeps),.tolerance{display:none!important}.steps td{padding:.15em .4em .15em 0}.steps .tick{width:2.8em}.steps .read{width:4.5em}.steps .read .line{min-width:3em}',
  'h2{display:inline;margin-right:.5em}.keeps p{display:inline}.run{display:block;font-size:.78em;margin:.3em 0}.line{min-width:6em}.cautions{font-size:.8em;padding:.15em .4em;margin-top:.3em}.cautions ul{padding-left:1.5em}.cautions li:nth-child(n+2):not(:nth-last-child(-n+3)){display:none}',
].join('');

/** A phone: one column, and each step over two lines, what to do and what to read. */
const NARROW = [
  'body{padding:.7rem}header,.columns,dl.facts{grid-template-columns:minmax(0,1fr)}header .date{grid-column:1;grid-row:auto;margin-top:.4em}.cautions ul{columns:1}',
  '.steps,.steps tbody{display:block}.steps thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}',
  '.steps tr{display:grid;grid-template-columns:3em 1fr 1fr 1fr;border-bottom:1px solid;padding:.2em 0}.steps td{border:0;padding:.1em .5em .1em 0}.steps .do{grid-column:2/-1}',
  '.steps td.reading{grid-row:2;grid-column:2;text-align:left;padding-left:0;white-space:normal}.steps td.second{grid-column:3}.steps td.read{grid-row:2;grid-column:4;width:auto}.steps td.reading:empty{display:none}',
  '.steps td.reading::after{content:attr(data-unit);font-size:.75em}.steps td.reading:empty+.read,.steps td.second:empty+.read{display:none}',
  '.can table{width:100%}.can svg{width:100%;max-width:16rem}footer p{flex-wrap:wrap}footer .blank{flex:1 1 8em}',
].join('');

/** Black on white, no colour needed; what is read at arm's length is large, what is looked up is small. Sizes hang on one root size. */
export const STYLE = [
  ':root{color-scheme:light dark}',
  '*{box-sizing:border-box}',
  'body{overflow-wrap:break-word;font:16px/1.3 Arial,Helvetica,"Liberation Sans",sans-serif;margin:0 auto;max-width:60rem;padding:1rem}',
  'h1{font-size:1.7em;margin:0;line-height:1.1}h2{font-size:1.08em;margin:.6em 0 .15em}p{margin:.2em 0}ul{margin:0;padding-left:1.5em}',
  'header{display:grid;grid-template-columns:minmax(0,1fr) max-content;align-items:end;column-gap:1em;border-bottom:.2em solid;padding-bottom:.3em}',
  'header .plants{grid-column:1}header .date{grid-column:2;grid-row:1/span 2;font-size:1.1em}',
  '.line{display:inline-block;border-bottom:1px solid;min-width:9em;height:1.1em}',
  '.alert{border:.2em solid;padding:.3em .6em;margin:.5em 0}',
  'dl.facts{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:.1em 1.5em;margin:.4em 0;font-size:.92em}dl.facts div{display:flex;gap:.5em}.facts div:first-child{grid-column:1/-1}dt{min-width:4.6em}dd{margin:0;font-weight:600;min-width:0}',
  'table{border-collapse:collapse;font-variant-numeric:tabular-nums}th,td{text-align:left;vertical-align:top;font-weight:400;padding:.05em .6em .05em 0}',
  'table.steps{width:100%;margin-top:.4em}.steps th{font-size:.85em;border-bottom:1px solid;vertical-align:bottom}.steps td{border-bottom:1px solid;padding:.25em .6em .25em 0}',
  '.steps .tick{white-space:nowrap;width:3.4em}.steps td.tick{font-size:1.15em}.box{display:inline-block;width:1.15em;height:1.15em;border:.13em solid;margin-right:.35em;vertical-align:-.2em}',
  '.steps .amount{font-size:1.4em}.steps .what{font-size:1.15em}.steps small{display:block;font-size:.82em}.steps .do small span+span::before{content:"· "}',
  '.steps .reading{text-align:right;white-space:nowrap;padding-left:.6em}.steps td.reading b{font-size:1.4em}.steps td.second b{font-size:1.15em;font-weight:400;line-height:1.6}',
  '.steps .read{width:6em}.steps .read .line{min-width:4em;width:100%;height:1.7em}',
  '.way{font-weight:600;margin:.4em 0}.bottle ol{margin:0;padding-left:1.5em;font-size:.9em}',
  '.tolerance,.tick-off{font-size:.82em}.run{display:none}',
  '.columns{display:grid;grid-template-columns:minmax(0,1.25fr) minmax(0,1fr);column-gap:1.6em;font-size:.84em}',
  '.columns th{white-space:nowrap}.columns thead th{border-bottom:1px solid}tr.right>*{font-weight:700;border-top:1px solid;border-bottom:1px solid}tr.out>*{font-weight:700}',
  '.ec,.number{white-space:nowrap}.can td.number,.can th.number{text-align:right}.can td,.can th{padding-top:0;padding-bottom:0;vertical-align:middle}.can td,.can th{padding-right:.35em}.can svg{display:block;height:1.15em;width:auto}',
  '.cautions{border:1px solid;padding:.2em .7em .4em;margin-top:.6em;font-size:.8em}.cautions h2{margin-top:.1em}.cautions ul{columns:2;column-gap:1.6em}.cautions li{break-inside:avoid}',
  'footer{margin-top:.5em}footer p{display:flex;gap:1em;margin:.6em 0 0}footer .blank{flex:1;display:flex;gap:.4em;white-space:nowrap}footer .line{flex:1;min-width:2em}',
  '.few td,.few th:not(:first-child){text-align:right}.few tbody th{white-space:normal}',
  '.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}',
  `@media screen and (max-width:40rem){${NARROW}}`,
  '@page{margin:9mm}',
  '@media print{',
  ':root{color-scheme:light}body{margin:0;padding:0;max-width:none;font-size:10.4pt;line-height:1.22}article+article{break-before:page}tr,li,section{break-inside:avoid}',
  'article{font-size:calc(var(--page)*1em)}.columns{font-size:calc(var(--small)*.84em)}.cautions{font-size:calc(var(--small)*.8em)}',
  '}',
  // whatever the printer is loaded with: A6 is 105 mm wide, A5 would be 148
  `@media print and (max-width:125mm){${CARD}}`,
].join('');
