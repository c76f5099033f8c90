import type { MixingSheet } from '../../sheet/sheet-types.js';
import type { DoseOffer } from '../../dose/findings.js';
import { doesHarm } from '../../feed/grade.js';
import { figure, percent } from '../figures.js';
import { besideRows } from '../given.js';
import { elementBar, missLines } from '../mix.js';
import { type Bar, type Fact, spoken } from '../sheet.js';
import { cautionSays } from '../says/cautions.js';
import { doseOfferSays, weighSays } from '../says/doses.js';
import { byPenSays } from '../says/by-pen.js';
import { dilutionSays } from '../says/one.js';
import { orderLines } from '../says/order.js';
import { keepingInFull, keepingSays } from '../says/keeping.js';
import { doubtsSay } from '../says/doubts.js';
import { leftOutSays, notesSay, surenessSays, tickOffSays, unseenSays, waterNames, WHY } from '../says/sheet.js';
import { bottleSteps, bottleTitle, wayOutSays } from '../says/way-out.js';
import { ladderOf, type Rung } from './ladder.js';
import { type LineOnPage, linesOf } from './lines.js';
import { volumeText } from '../volume.js';
import { IMPERIAL_GALLON, markText, mSPerCm, penUnit, range, shown, US_GALLON } from './readings.js';
import { refuseUnlike, type Shape } from '../../wrong-type.js';

/** A mixing sheet in finished words: what text, page and label have in common. */
export interface SheetPage {
  title: string;
  plants: string;
  date: string | null;
  /** What must be known before anything is mixed; empty where every limit holds. */
  alert: string[];
  /** What was chosen where the kit alone cannot make it, and why; null where it can. */
  wayOut: string | null;
  /** What would do as well. */
  others: string[];
  /** Spoons to be weighed where a missing bulk density stands in the way; null where none does. */
  weigh: ReturnType<typeof weighSays>;
  /** Bottles that are made once, before anything is mixed. */
  bottles: { title: string; steps: string[] }[];
  facts: Fact[];
  /** Heading of the readings: the unit that the grower's pen shows. */
  pen: string;
  /** True where the pen shows another unit than mS/cm, which is then given beside it. */
  twoScales: boolean;
  lines: LineOnPage[];
  ladder: Rung[];
  /** Common to all readings. */
  tolerance: string;
  unseen: string[];
  /** The items of which the pen tells nothing, in one line; null where there are none. */
  tickOff: string | null;
  /** Whether last week's jug may be used, in one line; and all that ends it. */
  keeps: string;
  keepsBecause: string[];
  sureness: string[];
  /** What giving up nearness would save, and what going all the way would cost; null where it was not worked out. */
  beside: ReturnType<typeof besideRows>;
  bars: Bar[];
  notes: string[];
  cautions: string[];
}

/** What a caller without types has to bring as a mixing sheet. */
export const A_MIXING_SHEET = {
  status: 'text',
  feed: { name: 'text' },
  steps: ['object'],
} as const satisfies Shape;

/** The words of a mixing sheet. */
export function pageOf(sheet: MixingSheet): SheetPage {
  refuseUnlike({ sheet }, { sheet: A_MIXING_SHEET });
  const { feed } = sheet;
  return {
    title: `${feed.name}: mixing sheet`,
    plants: `${feed.plants} in ${feed.medium}, ${feed.phase}, ${feed.strength}`,
    date: sheet.date,
    alert: [...(sheet.given?.doubts ? doubtsSay(sheet.given.doubts, feed, sheet.litres) : []), ...alertOf(sheet)],
    wayOut: sheet.given?.wayOut ? wayOutSays(sheet.given.wayOut, sheet.given.sure.share) : null,
    others: sheet.given?.wayOut?.others.map(doseOfferSays) ?? [],
    weigh: weighSays(sheet.notes.doses, sheet.given?.wayOut?.without.weigh),
    bottles: bottlesOf(sheet),
    facts: [
      { name: 'Can', value: canText(sheet.litres) },
      { name: 'Fill', value: fillText(sheet) },
      { name: 'Water', value: waterText(sheet) },
      { name: 'Nitrogen', value: nitrogenText(sheet) },
      { name: 'Pen', value: penText(sheet.pen) },
      ...(sheet.code === null ? [] : [{ name: 'Code', value: `${sheet.code} (tells what is in the can)` }]),
      ...(sheet.dilutions ?? []).map((one) => ({ name: `For ${one.feed}`, value: dilutionSays(one) })),
    ],
    pen: penUnit(sheet.pen),
    twoScales: sheet.pen !== 'EC',
    lines: linesOf(sheet),
    ladder: ladderOf(sheet),
    tolerance: byPenText(sheet) ?? toleranceText(sheet),
    unseen: sheet.unseen.map(unseenSays),
    tickOff: tickOffSays(sheet.unseen),
    keeps: keepingSays(sheet.keeps),
    keepsBecause: keepingInFull(sheet.keeps),
    sureness: surenessSays(sheet),
    beside: sheet.given && besideRows(sheet.given, feed),
    bars: sheet.elements.filter((e) => e.min !== null || e.max !== null).map(elementBar),
    notes: [
      ...(sheet.order.verdict === 'will cloud' ? [] : orderLines(sheet.order)),
      ...(sheet.status === 'violated' ? [] : sheet.leftOut.map(leftOutSays)),
      ...notesSay(told(sheet)),
    ],
    cautions: sheet.cautions.map(cautionSays),
  };
}

/** Without what stands on top. */
const told = ({ notes, feed }: MixingSheet): Pick<MixingSheet, 'notes' | 'feed'> => ({
  feed,
  notes: { ...notes, doses: notes.doses.filter(({ kind }) => kind !== 'bulk density missing') },
});

const bottlesOf = ({ steps, water }: MixingSheet): SheetPage['bottles'] =>
  steps.flatMap(({ name, bottle, millilitres }) => {
    if (bottle === null) return [];
    const form = millilitres === null ? 'powder' : 'liquid';
    return [{ title: bottleTitle(name), steps: bottleSteps(name, bottle, { water: waterNames(water), form }) }];
  });

function alertOf(sheet: MixingSheet): string[] {
  const lines = sheet.status === 'kept' ? [] : missLines(sheet.violations).map(spoken);
  const clouds =
    sheet.order.verdict === 'will cloud' ? ['THE CAN WILL CLOUD: salts precipitate.', ...orderLines(sheet.order)] : [];
  const borrowed = borrowedLines(sheet);
  switch (sheet.status) {
    case 'kept':
      return [...borrowed, ...sheet.offers.map(offerLine), ...clouds];
    case 'violated':
      return [
        `NOT EVERY LIMIT IS KEPT: your tools cannot measure this batch closely enough.${sheet.violations.some(({ limit }) => doesHarm(limit)) ? ' Not to be fed.' : ''}`,
        ...lines,
        ...sheet.leftOut.map(leftOutSays),
        ...sheet.offers.map(offerLine),
        ...borrowed,
        ...clouds,
      ];
    case 'infeasible':
      return [
        `NO FEED FROM THIS SHELF KEEPS EVERY LIMIT: this is the nearest. ${WHY}`,
        ...lines,
        ...borrowed,
        ...clouds,
      ];
    case 'uncertified':
      return [
        sheet.proof.blend.unfinished
          ? 'NOT FINISHED: the search ended before a feed was found or ruled out. These are the nearest doses so far.'
          : 'NOT PROVED: no engine’s answer passed its check. Treat the doses as a guess.',
        ...lines,
        ...borrowed,
        ...clouds,
      ];
    default:
      return sheet satisfies never;
  }
}

export const offerLine = (offer: DoseOffer): string => `A way out: ${doseOfferSays(offer)}`;

/** What the kit has nothing for: the amounts on the sheet are then another's. */
function borrowedLines({ steps }: MixingSheet): string[] {
  const named = (unit: 'g' | 'mL'): string =>
    steps
      .filter((step) => step.borrowed && step.measures[0]!.unit === unit)
      .map((step) => step.name)
      .join(', ');
  const [powders, liquids] = [named('g'), named('mL')];
  return [
    ...(powders === '' ? [] : [`YOUR KIT CANNOT MEASURE ${powders}: borrow a scale, or weigh its level spoons once.`]),
    ...(liquids === '' ? [] : [`YOUR KIT CANNOT MEASURE ${liquids}: take a syringe (see Notes).`]),
  ];
}

/** `4 L = 1.06 US gallons (of 3.785 L) or 0.88 imperial gallons (of 4.546 L)`; a can of gallons in its own first. */
function canText(litres: number): string {
  const us = `${gallons(litres / US_GALLON, 'US')} (3.785 L each)`;
  const imperial = `${gallons(litres / IMPERIAL_GALLON, 'imperial')} (4.546 L each)`;
  const own = volumeText(litres);
  if (own.includes('US gal')) return `${own} = ${imperial}`;
  return own.includes('imperial gal') ? `${own} = ${us}` : `${own} = ${us} = ${imperial}`;
}

const gallons = (n: number, which: string): string =>
  `${figure(n)} ${which} ${figure(n) === '1' ? 'gallon' : 'gallons'}`;

function fillText({ firstLitres, litres }: MixingSheet): string {
  return firstLitres < litres
    ? `${markText(firstLitres, litres)} first; to the ${markText(litres, litres)} mark when all is in`
    : `to the ${markText(litres, litres)} mark before anything goes in`;
}

function waterText({ water, pen }: MixingSheet): string {
  const both =
    pen === 'EC' ? mSPerCm(water.reading.mSPerCm) : `${shown(water.reading, pen)} (${mSPerCm(water.reading.mSPerCm)})`;
  return `${waterNames(water)}; alone it reads ${both} ${water.measured ? 'on your pen' : 'by its analysis'}`;
}

function nitrogenText({ nitrogen }: MixingSheet): string {
  const aim = nitrogen.aim === null ? '' : ` (aim ${figure(nitrogen.aim)})`;
  const share = nitrogen.ammoniumShare === null ? '' : `; ammonium ${percent(nitrogen.ammoniumShare)} of it`;
  return `${figure(nitrogen.mgPerLitre)} mg/L${aim}${share}`;
}

const penText = (pen: MixingSheet['pen']): string =>
  pen === 'EC' ? 'shows EC in mS/cm' : `shows ppm on the ${pen} scale: 1 mS/cm is ${pen} ppm`;

/** Of a can that is dosed by the pen its readings are what hands stop at. */
function byPenText(sheet: MixingSheet): string | null {
  if (sheet.steps.every(({ byPen }) => byPen?.by !== 'pen')) return null;
  const { water, pen } = sheet;
  const alone = pen === 'EC' ? mSPerCm(water.reading.mSPerCm) : shown(water.reading, pen);
  return `${byPenSays(alone)} Readings at 25 °C or from a pen that corrects for temperature.`;
}

function toleranceText({ end, pen, learned }: MixingSheet): string {
  const own =
    learned === null
      ? ''
      : ` (by your ${learned.batches} good batches; by labels alone ${range(learned.predicted, pen)})`;
  const base = `Readings at 25 °C or from a pen that corrects for temperature; nine of ten good batches lie within ${range(end.reading, pen)} at the end${own}.`;
  const at = end.atTemperature;
  if (at === null) return `${base} A pen that does not correct reads about 2 % less for each °C below 25.`;
  return `${base} A pen that does not correct shows ${shown(at, pen)} (${range(at, pen)}) at ${figure(at.celsius)} °C.`;
}
