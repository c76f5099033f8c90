/**
 * velamen as a library, in Node and in a browser: the desk, which answers what the commands answer from texts of bench files, and what
 * turns the answers into reports. Where input is refused every function throws a `Refusal` with all its problems.
 */

// Questions, from texts of bench files
export type { Answer, Answers } from './desk/answer.js';
export { assessWords } from './desk/assess.js';
export type { BenchFiles, TextFile } from './desk/bench-files.js';
export { blendFeeds } from './desk/blend.js';
export { buyFor, type Search, substitutesFor } from './desk/buy.js';
export { checkPenWithStandard } from './desk/check-pen.js';
export { concentrateFeed } from './desk/concentrate.js';
export { densityOnShelf } from './desk/density-on-shelf.js';
export { dosesOfFeed } from './desk/doses.js';
export { frontierOf } from './desk/frontier.js';
export { judgeReading } from './desk/judge-reading.js';
export { labelsOf } from './desk/labels.js';
export { mixingSheets } from './desk/mixing-sheets.js';
export { openBench } from './desk/open-bench.js';
export type { OpenBench } from './desk/opened.js';
export { programmesOf } from './desk/programmes.js';
export { reachOf } from './desk/reach.js';
export { shippedCatalog } from './desk/shipped-catalog.js';
export { weighSpoonsOnScale } from './desk/weigh-on-scale.js';
export { weighSpoonByPen } from './desk/weigh-spoon.js';
export type { Wishes } from './desk/wishes.js';

// The steps that the questions are made of
export { blend } from './blend/blend.js';
export type { Bench } from './catalog/bench-types.js';
export { readBench } from './catalog/bench.js';
export type { Catalog } from './catalog/catalog.js';
export { readProducts } from './catalog/shelf.js';
export { solutionChemistry } from './chemistry/solution/index.js';
export type { FeedRequest } from './feed/request.js';
export { closeLabels as closeShelf } from './desk/close-labels.js';
export type { ClosedProduct } from './label/closed-product.js';
export type { Product } from './label/product.js';
export { mixingSheet } from './sheet/mixing-sheet.js';
export type { SheetOfFeed } from './sheet/sheet-types.js';

// Answers as reports
export { frontierSvg } from './report/frontier-svg.js';
export { jsonOf } from './report/json-of.js';
export { jsonSchema } from './report/json-schema.js';
export { jsonText } from './report/json-text.js';
export { renderCsv } from './report/csv.js';
export { renderHtml } from './report/html.js';
export { type ReportOptions, reportOf } from './report/report-of.js';
export type { Results } from './report/results.js';
export { labelHtml, labelText, pageOf, sheetCsv, sheetHtml } from './report/sheet-page/index.js';
export type { Sheet } from './report/sheet.js';
export { renderText, type TextOptions } from './report/text.js';

// Problems
export { type Checked, type Problem, problemLine, Refusal, type Where } from './problem.js';
