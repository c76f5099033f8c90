import { atDoor } from '../door.js';
import type { ConcentrateResult } from '../stock/concentrate-result.js';
import { cautionBlocks } from './blend.js';
import { severalSheets } from './several.js';
import type { Typed } from './command-line.js';
import type { ConcentrateJson } from './concentrate-shapes.js';
import { concentrateJson } from './json/concentrate.js';
import { amount, figure, percent } from './figures.js';
import { perJugSays } from './says/stock-bottles.js';
import { volumeText } from './volume.js';
import { mineralName } from './says/clouding.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';

/** Stock solutions as a sheet: the bottles, their labels, the doses; or why there are none and the strongest there is. */
export function concentrateSheet(answer: ConcentrateResult, typed: Typed | null = null): Sheet {
  const result = concentrateJson(answer, typed);
  const name = result.feed?.name ?? 'recipe';
  const made = result.status === 'made';
  const bottles = result.tanks.length === 1 ? 'one stock bottle' : 'two stock bottles';
  return {
    title: made
      ? `${name}: ${bottles}, 1:${figure(result.ratio)}${result.ratioBy === 'strongest' ? ', the strongest that holds' : ''}`
      : `${name}: no stock at 1:${figure(result.ratio)}${result.holds ? `; 1:${figure(result.holds.ratio)} holds` : ''}`,
    blocks: [
      facts(
        ['Recipe', result.recipe],
        [
          'Plants',
          result.feed && result.feed.plants !== ''
            ? `${result.feed.plants} in ${result.feed.medium}, ${result.feed.phase}`
            : null,
        ],
        ...(result.shares
          ? result.shares.map(
              ({ feed, dosePerLitre }) =>
                [`For ${feed}`, `${figure(dosePerLitre)} mL of each stock in a litre of feed`] as const,
            )
          : [['Dose', `${figure(result.dosePerLitre)} mL of each stock in a litre of feed`] as const]),
        ['Jug', volumeText(result.jugMillilitres / 1000)],
        ['Filled with', result.fill],
        ['Coldest', `${figure(result.coldestCelsius)} °C`],
      ),
      ...(made ? [] : whyNot(result)),
      ...canBlocks(result),
      ...result.tanks.flatMap((tank, i) =>
        tankBlocks(tank, answer.status === 'made' && answer.tanks[i]!.calcium, answer),
      ),
      ...apartBlocks(result),
      ...section('From stock to feed', result.use),
      ...lastsBlocks(result),
      ...largestBlocks(result),
      ...section('Keeping', result.keeping),
      ...section('Jar test, before the first jug', result.jarTest),
      ...section('Notes', result.notes),
      ...cautionBlocks(answer.status === 'nothing to dissolve' ? [] : answer.cautions),
    ],
  };
}

/** The stock solutions of several feeds: one overview first, their cautions once at the end. */
export const concentrateSheets = (results: readonly ConcentrateResult[], typed: Typed | null = null): Sheet[] =>
  severalSheets(results, (result) => concentrateSheet(result, typed), overview);

function overview(results: readonly ConcentrateResult[]): Sheet {
  const rows = results.map((result) => [result.feed?.name ?? 'recipe', bottlesOf(result)]);
  const ratios = new Set(results.map(({ ratio }) => figure(ratio)));
  const at = ratios.size === 1 ? ` at 1:${[...ratios][0]}` : '';
  return { title: `Stock solutions${at}`, blocks: [table(['feed', 'stock'], rows)] };
}

function bottlesOf(result: ConcentrateResult): string {
  if (result.status === 'nothing to dissolve')
    return result.remark === 'no feed' ? 'NONE: no feed keeps every limit' : 'NONE: nothing to dissolve';
  if (result.status === 'made')
    return `${result.tanks.length === 1 ? 'one bottle' : 'two bottles'}${result.ratioBy === 'strongest' ? `, 1:${figure(result.ratio)}` : ''}`;
  const strongest = Math.max(0, ...result.largest.map(({ ratio }) => ratio ?? 0));
  return strongest === 0 ? 'NONE: too strong at any ratio' : `NONE: too strong; 1:${figure(strongest)} is the most`;
}

function whyNot(result: ConcentrateJson): Block[] {
  if (result.status === 'nothing to dissolve') return result.why.map((why) => paragraph(spoken(why), 'bad'));
  return [
    ...(result.holds === null
      ? []
      : [
          paragraph(
            `${figure(result.holds.dosePerLitre)} mL of each stock in a litre of feed is the strongest that holds:`,
          ),
          {
            kind: 'command',
            text: atDoor({ typed: result.holds.command, page: 'Sink, As stock in bottles' }),
          } as const,
        ]),
    heading('Why'),
    paragraph('Shared out as well as can be, this would happen at the ratio asked:', 'bad'),
    list(result.why.map(spoken)),
  ];
}

/** A can that clouds is told before anything is weighed. */
function canBlocks({ can }: ConcentrateJson): Block[] {
  const cloudy = can?.precipitation.filter((line) => line.verdict === 'will cloud') ?? [];
  if (cloudy.length === 0) return [];
  return [
    paragraph(
      `However it is mixed, the finished can itself turns cloudy: salts precipitate. ${cloudy.map((line) => spoken(line.sentence)).join(' ')}`,
      'bad',
    ),
  ];
}

function tankBlocks(
  tank: ConcentrateJson['tanks'][number],
  calcium: boolean,
  { jugMillilitres, scaleStepGrams }: ConcentrateResult,
): Block[] {
  const head = tank.name === 'stock' ? 'The stock bottle' : `Stock bottle ${tank.name}${calcium ? ' (calcium)' : ''}`;
  const clouding = tank.precipitation.filter((line) => line.index !== null && line.index > FAR).map(cloudText);
  return [
    heading(head),
    table(
      ['', `>for ${volumeText(jugMillilitres / 1000)}`, '>per litre of stock'],
      tank.items.map((item) => [item.name, perJugSays(item, scaleStepGrams), amount(item.perLitre, unitOf(item))]),
    ),
    list([
      ...tank.steps,
      `It stands at about pH ${figure(Math.round(tank.pH * 10) / 10)}.${tank.fullest ? ` Nearest to its limit: ${tank.fullest.what}, at ${percent(tank.fullest.share)} of what may stand in it.` : ''}`,
      ...(clouding.length === 0 ? ['Nothing in it comes near to clouding it.'] : clouding),
    ]),
    heading(`Label for ${tank.name === 'stock' ? 'the bottle' : `bottle ${tank.name}`}`),
    list(tank.label),
  ];
}

/** An index of a thousandth of saturation is not worth a line. */
const FAR = -3;

const cloudText = (line: ConcentrateJson['tanks'][number]['precipitation'][number]): string =>
  line.verdict === 'clear'
    ? spoken(
        `${mineralName(line.mineral)}: stays clear (saturation index ${figure(line.index ?? 0).replace('-', '−')})`,
      )
    : line.sentence;

function apartBlocks({ apart }: ConcentrateJson): Block[] {
  if (apart.length === 0) return [];
  return section(
    'Kept out of the stock',
    apart.map((item) => {
      const dose =
        item.gramsPerLitre === undefined
          ? amount(item.millilitresPerLitre ?? 0, 'mL')
          : amount(item.gramsPerLitre, 'g');
      return `${item.name}, ${dose} per litre of feed: ${item.why}.`;
    }),
  );
}

function lastsBlocks({ lasts }: ConcentrateJson): Block[] {
  if (lasts === null) return [];
  const batches = lasts.batches === null ? '' : `, ${figure(lasts.batches)} cans`;
  const weeks = lasts.weeks === null ? '' : `, ${figure(lasts.weeks)} weeks`;
  return [paragraph(`A jug makes ${figure(lasts.feedLitres)} L of feed${batches}${weeks}.`)];
}

function largestBlocks({ largest }: ConcentrateJson): Block[] {
  const rows = largest.map(({ tanks, ratio, dosePerLitre, limitedBy }) => [
    tanks === 1 ? 'one bottle' : 'two bottles',
    ratio === null || dosePerLitre === null ? 'none' : `1:${figure(ratio)} (${figure(dosePerLitre)} mL/L)`,
    limitedBy[0] ?? '',
  ]);
  return rows.length === 0
    ? []
    : [heading('The strongest that holds'), table(['', '>ratio', 'because beyond it'], rows)];
}

type TankItem = ConcentrateJson['tanks'][number]['items'][number];

const unitOf = (item: TankItem): 'g' | 'mL' => (item.gramsPerJug === undefined ? 'mL' : 'g');
