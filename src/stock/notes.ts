import type { Clouding } from '../can/clouding.js';
import { isOrganic } from '../can/organic.js';
import { EXACT_UP_TO } from './assign.js';
import type { AtRatio } from './concentrate-request.js';
import type { LargestLine, StocksMade } from './concentrate-result.js';
import type { StockNote } from './findings.js';
import { ceilingByConvention, type StockItem } from './tank.js';

/** What the reader should know about this very answer. */
export function notesOf(told: {
  request: AtRatio;
  ratioBy: StocksMade['ratioBy'];
  /** False where more items matter than could be tried in every way. */
  exact: boolean;
  stocked: readonly StockItem[];
  can: Clouding | null;
  largest: readonly LargestLine[];
  made: boolean;
}): StockNote[] {
  const { request, ratioBy, exact, stocked, can, largest, made } = told;
  const { remark, ratio } = request;
  const clouds = can?.minerals.filter(({ verdict }) => verdict !== 'clear') ?? [];
  const phosphate = largest.some(({ limitedBy }) =>
    limitedBy.some((limit) => limit.kind === 'mineral' && limit.mineral === 'brushite'),
  );
  return [
    ...(remark === null ? [] : [{ kind: 'remark', remark } as const]),
    { kind: 'ratio', ratio },
    ...(ratioBy === 'strongest' ? [{ kind: 'strongest', ratio } as const] : []),
    ...(exact ? [] : [{ kind: 'too many for every split', exact: EXACT_UP_TO } as const]),
    ...about('make-up unknown', stocked, ({ product }) => product.form === 'powder' && isGuessed(product)),
    ...about('liquids', stocked, ({ product }) => product.form === 'liquid'),
    ...about('organic', stocked, ({ product }) => isOrganic(product)),
    ...about('label open', stocked, ({ brings }) => brings.most !== undefined),
    ...shortOf(request),
    ...smallOf(request),
    ...(clouds.length === 0 ? [] : [{ kind: 'can clouds', minerals: clouds } as const]),
    ...(made ? [{ kind: 'own pH' } as const] : []),
    ...(phosphate ? [{ kind: 'acid holds phosphate' } as const] : []),
  ];
}

type AboutProducts = 'make-up unknown' | 'liquids' | 'organic' | 'label open';

function about(kind: AboutProducts, items: readonly StockItem[], applies: (item: StockItem) => boolean): StockNote[] {
  const products = items.filter(applies).map(({ product }) => product.name);
  return products.length === 0 ? [] : [{ kind, products }];
}

const isGuessed = (product: StockItem['product']): boolean => !ceilingByConvention(product).known;

/** Stock on hand against one jug. */
function shortOf({ items, ratio, jugMillilitres }: AtRatio): StockNote[] {
  return items.flatMap(({ product, perLitre }): StockNote[] => {
    const needed = (perLitre * ratio * jugMillilitres) / 1000;
    const { onHand } = product;
    if (onHand === undefined || onHand >= needed) return [];
    const unit = product.form === 'powder' ? 'g' : 'mL';
    return [{ kind: 'short on hand', product: product.name, needed, onHand, unit }];
  });
}

/** Ten steps of a scale are 10 %; less is no weighing. */
function smallOf({ items, ratio, jugMillilitres, scaleStepGrams }: AtRatio): StockNote[] {
  if (scaleStepGrams === null) return [];
  const small = items.filter(({ product, perLitre }) => {
    const grams = (perLitre * ratio * jugMillilitres) / 1000;
    return product.form === 'powder' && grams > 0 && grams < 10 * scaleStepGrams;
  });
  if (small.length === 0) return [];
  return [{ kind: 'too little to weigh', products: small.map(({ product }) => product.name), scaleStepGrams }];
}
