import { readSlips } from '../../advice/slips/read-slips.js';
import type { BatchSpokenOf } from '../../advice/slips/types.js';
import { readWeighedSpoons } from '../../advice/weighed-spoons.js';
import { findProduct } from '../../catalog/catalog.js';
import type { Product } from '../../label/product.js';
import type { Where } from '../../problem.js';
import { readSheetCode } from '../../sheet/code.js';
import { parseCount } from './number.js';
import type { Option } from './option.js';
import { parseFactor, parsePenValue, parseScale, parseStepReading, parseYesNo, type Scale } from './pen.js';
import { parseSpoon } from './volume.js';

/** The products that an id is looked up in. */
export type Among = { among: readonly Product[] };
export type OnPen = { scale: Scale };

export const productId = (text: string, where: Where, { among }: Among) => findProduct(among, text, where);
const penValue = (text: string, where: Where, { scale }: OnPen) => parsePenValue(text, scale, where);

/** Options about a can that was mixed, the pen and its readings: rows of the table of wishes. */
export const PEN_WISHES = {
  reading: {
    value: 'READING',
    says: 'what the pen shows: 0.46, "230 ppm", "2: 0.21", "end: 0.46"',
    repeatable: true,
    unit: 'mS/cm',
    read: (text: string, where: Where, { scale }: OnPen) => parseStepReading(text, scale, where),
  },
  did: {
    value: 'WORDS',
    says: 'what you did otherwise than planned: "calcium part forgotten", "no idea whether base went in", "filled to 5 L"',
    read: (text: string, where: Where, batch: BatchSpokenOf) => readSlips(text, batch, where),
  },
  sheet: {
    value: 'CODE',
    says: 'the code on the sheet that was mixed by: the reading is judged for that very batch, whatever has changed since',
    read: readSheetCode,
  },
  scale: {
    value: 'SCALE',
    says: 'what the pen shows: EC, or ppm on the 500, 640 or 700 scale',
    usual: 'the bench’s pen',
    bench: 'pen.scale',
    read: parseScale,
    choices: ['EC', '500', '640', '700'],
  },
  compensates: {
    value: 'YES/NO',
    says: 'whether the pen corrects for temperature',
    usual: 'taken as yes, and doubted',
    read: parseYesNo,
    choices: ['yes', 'no'],
  },
  penFactor: {
    value: 'FACTOR',
    says: 'what --standard found: every reading is multiplied by it',
    read: parseFactor,
  },
  product: { value: 'ID', says: 'the product that was spooned in', read: productId, choices: 'products' },
  spoon: { value: 'SPOON', says: 'the spoon: "1/4 tsp"', read: parseSpoon },
  count: { value: 'N', says: 'how many level spoons went in', read: parseCount },
  before: { value: 'READING', says: 'the reading of the water before the spoons', unit: 'mS/cm', read: penValue },
  after: { value: 'READING', says: 'the reading after the spoons', unit: 'mS/cm', read: penValue },
  weigh: {
    value: 'WORDS',
    says: 'what level spoons weigh on a scale: "ten level 1/4 tsp of part-c weigh 11.2 g"',
    read: (
      text: string,
      where: Where,
      { among, ...by }: { among: readonly Product[]; onShelf: ReadonlySet<string>; named?: Product },
    ) => readWeighedSpoons(text, among, by, where),
  },
  save: { says: 'write the bulk density onto the shelf' },
  standard: {
    value: 'EC',
    says: 'check the pen in a standard: "1413 µS"',
    unit: 'mS/cm',
    read: (text: string, where: Where) => parsePenValue(text, null, where),
  },
  reads: {
    value: 'READING',
    says: 'what the pen shows in the standard, in its unit or in ppm',
    read: (text: string, where: Where, { scale, bare }: OnPen & { bare: string | undefined }) =>
      parsePenValue(text, scale, where, bare),
  },
} as const satisfies Record<string, Option>;
