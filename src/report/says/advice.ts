import { atDoor } from '../../door.js';
import type { OtherWater } from '../../advice/named-water.js';
import { listed } from './listed.js';
import type {
  AdviceNeed,
  AdviceNote,
  AdviceSense,
  AssessNote,
  Limited,
  MeasureSense,
  OpenMeasure,
} from '../../advice/findings.js';
import { disagreementSays } from './disagreement.js';
import { formatNumber } from '../../units/index.js';
import { limitSays } from './limits.js';

/** A sense in which advice can be meant, as a clause. */
export function senseSays(sense: AdviceSense, atMost: boolean): string {
  return atMost ? `at most: ${plainSense(sense)}` : plainSense(sense);
}

function plainSense(sense: AdviceSense): string {
  switch (sense.kind) {
    case 'rate': {
      const of = { rate: '', 'share of it': 'that share of it, ', 'as it is': 'as it is, ' }[sense.of];
      const stock = sense.stockParts === null ? '' : ` of stock, 1:${formatNumber(sense.stockParts, 4)}`;
      return `${of}per ${sense.per}${stock}`;
    }
    case 'own product':
      return sense.per === null ? `your ${sense.id}` : `your ${sense.id}, per ${sense.per}`;
    case 'usual rate':
      return `if full is ${sense.rate}`;
    case 'element':
      return `mg/L of ${sense.element}`;
    case 'product':
      return 'mg/L of the product itself';
    case 'EC':
      return `EC of the can${above(sense)}`;
    case 'pen':
      return `a pen on the ${sense.scale}${above(sense)}`;
    default:
      return sense satisfies never;
  }
}

const above = ({ aboveWater }: { aboveWater: boolean }): string => (aboveWater ? ', above the water' : '');

/** How the words were taken. */
export function adviceNoteSays(note: AdviceNote): string {
  switch (note.kind) {
    case 'volume':
      return `"${note.written}" is read as ${note.units.join(' and as ')}.`;
    case 'measure':
      return `"${note.written}": ${[...new Set(note.senses.map(measureSays))].join('; ')}.`;
    case 'powder':
      return 'A millilitre of an unnamed powder weighs 0.6 to 1.4 g (from memory).';
    case 'liquid':
      return 'A liquid: its label may count by weight (1 to 1.4 g/mL, from memory) or by volume; both are counted.';
    case 'grade':
      return note.of === 'elements'
        ? `${note.grade} is taken as % of the elements N, P and K.`
        : `${note.grade} is N – P2O5 – K2O in % by weight; P is 0.436 of P2O5, K 0.830 of K2O.`;
    case 'only a grade':
      return 'A grade does not tell the forms of its nitrogen, nor what else is in the jar; its EC is a range for that reason.';
    case 'no nitrogen':
      return `A ${note.grade} holds no nitrogen: your own feed is held against it by its ${note.counts}.`;
    case 'how often':
      return 'How often it is given is not translated: only the strength of one can is.';
    case 'behind the injector':
      return 'The strength is taken as that of the feed, behind the injector.';
    case 'ceiling':
      return 'A ceiling, not an aim: any weaker feed follows it too. Your own is shown as it is now, and as strong as it may be.';
    case 'parts of stock':
      return 'One part of stock in so many, or to so many of water: words do not tell, and both are counted.';
    case 'share or whole':
      return `"${note.rate}" may be full strength, of which the share is taken, or be that share already: both are shown.`;
    case 'share of EC':
      return 'A share of an EC is taken as that share of the reading; EC is nearly in proportion to the feed.';
    case 'turned into':
      return `ppm ${note.written} is turned into ${note.element}.`;
    case 'CF':
      return 'CF counts tenths of mS/cm.';
    case 'EC without unit':
      return note.unit === 'mS/cm'
        ? 'EC without a unit is taken as mS/cm: in µS/cm, that would be purer than rain.'
        : 'EC without a unit is taken as µS/cm: in mS/cm, that would be brine.';
    case 'above water':
      return 'The reading is what the feed adds: your own water’s reading is put on top of it.';
    case 'whole can':
      return 'A meter’s reading is taken as that of the whole can, water included; what the adviser’s own water reads is not told.';
    case 'bare ppm':
      return '"ppm" alone may be mg/L of nitrogen or a pen’s reading on any scale: each is shown.';
    case 'unknown base':
      return `${formatNumber(100 * note.share, 3)} % of a strength that is not told: full strength is whatever that label says, and labels differ tenfold. The rows below only hold if its label says so (common practice, no source).`;
    case 'own product':
      return note.full === null
        ? `${note.id} on your shelf is of that grade, the likeliest that is meant: its own label comes first.`
        : `${note.id} on your shelf is of that grade, the likeliest that is meant: the most of its label, ${formatNumber(note.full, 3)} ${note.unit}/L, is taken as full strength.`;
    case 'other water':
      return otherWaterSays(note);
    case 'no own feed':
      return atDoor({
        typed: 'No feed from this shelf could be held against it: `velamen blend` says why.',
        page: 'No feed from this shelf could be held against it: the report of this feed says why.',
      });
    default:
      return note satisfies never;
  }
}

/** The advice is for another water than that of the bench, and what that comes to. */
function otherWaterSays({ written, named, waters, mSPerCm }: OtherWater): string {
  const yours = `${listed(waters)}, which ${waters.length === 1 ? 'reads' : 'read'} ${formatNumber(mSPerCm, 2)} mS/cm by ${waters.length === 1 ? 'itself' : 'themselves'}`;
  return named === 'pure'
    ? `The advice is for ${written}; this bench takes ${yours}: its calcium, magnesium and alkalinity come on top of the amounts, and every figure here counts them.`
    : `The advice is for ${written}; this bench takes ${yours}: the calcium, magnesium and alkalinity that such water brings are missing, and no figure here counts them.`;
}

const measureSays = (sense: MeasureSense): string => (sense.kind === 'unit' ? sense.name : OPEN[sense.measure]);

const OPEN: Readonly<Record<OpenMeasure, string>> = {
  'US teaspoon': 'a US teaspoon is 4.93 mL',
  'metric teaspoon': 'a metric one 5 mL',
  'US tablespoon': 'a US tablespoon is 14.8 mL',
  'metric tablespoon': 'a metric one 15 mL',
  'Australian tablespoon': 'an Australian one 20 mL (from memory)',
  'US cup': 'a US cup is 237 mL',
  'metric cup': 'a metric one 250 mL (from memory)',
  drop: 'a drop is 0.03 to 0.06 mL (from memory)',
  'ounce of weight': 'an ounce of weight (28.35 g)',
  'US fluid ounce': 'a US fluid ounce',
  'imperial fluid ounce': 'an imperial fluid ounce',
};

/** What would make the range narrower, as a clause. */
export function adviceNeedSays(need: AdviceNeed): string {
  switch (need.kind) {
    case 'which gallon':
      return 'which gallon, quart or pint is meant';
    case 'density of the liquid':
      return 'the density of that liquid, and whether its label counts by weight or by volume';
    case 'weight of ten spoons':
      return 'the weight of ten level spoons of that very powder';
    case 'whole label':
      return 'the whole label: forms of nitrogen, calcium, magnesium';
    case 'label rate':
      return 'the rate that this very label calls full strength, for example g/L or spoons per gallon';
    case 'scale of the pen':
      return 'which scale the pen is on: 500, 640 or 700 ppm per mS/cm';
    case 'ppm of what':
      return 'of what the ppm are: of nitrogen, or on a pen (and then on which scale)';
    case 'share or whole':
      return `whether ${need.rate} is the full strength, or the share of it`;
    default:
      return need satisfies never;
  }
}

/** Why the own feed does not follow, as a clause. */
export function limitedSays(limited: Limited): string {
  switch (limited.kind) {
    case 'water':
      return `the water alone reads ${formatNumber(limited.mSPerCm, 3)} mS/cm: nothing is left for a feed`;
    case 'full strength':
      return 'it is stronger than the programme at full strength, and nothing past 100 % is advised';
    case 'EC limit':
      return `the EC limit of this feed is ${formatNumber(limited.mSPerCm, 3)} mS/cm`;
    case 'programme':
      return limited.rules.map((rule) => `the programme takes ${rule} mg/L at full strength`).join(', ');
    case 'strength':
      return `no ${limited.way} feed can be asked for`;
    case 'shelf': {
      const limits = limited.limits.length === 0 ? '' : ` (${limited.limits.map(limitSays).join(' and ')})`;
      return `no mix from this shelf keeps every limit any ${limited.way}${limits}`;
    }
    case 'not found':
      return `no strength was found whose cheapest mix is ${limited.way}`;
    default:
      return limited satisfies never;
  }
}

/** How a recipe was taken. */
export function assessNoteSays(note: AssessNote): string {
  switch (note.kind) {
    case 'spoonful': {
      const { id, millilitres, grams, bulkDensity, off } = note.spoonful;
      const density = off === null ? `${bulkDensity} g/mL` : `${bulkDensity} ± ${off} g/mL`;
      return `${id}: ${formatNumber(millilitres, 3)} mL level is taken as ${formatNumber(grams, 3)} g (${density}; spoons vary by 5 to 15 %).`;
    }
    case 'sources disagree':
      return `${note.id}: ${disagreementSays(note.disagreement)}.`;
    case 'equal waters':
      return 'Several waters are given: taken in equal shares.';
    case 'other water':
      return otherWaterSays(note);
    default:
      return note satisfies never;
  }
}
