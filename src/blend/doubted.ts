import { elementPerOxide } from '../chemistry/oxides.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { alike, gradeOf } from '../label/grade-in-name.js';

/** A product whose row says another grade than its name: one of them is mistaken, and nobody here knows which. */
export interface Doubted {
  product: string;
  name: string;
  /** N, P2O5 and K2O in %, as the name and as the row have them. */
  grade: readonly [number, number, number];
  row: readonly [number, number, number];
  /** What a can of the feed would hold by the name, mg/L, with the most that is allowed; null where there is no most. */
  ifNamed: { element: 'N' | 'P' | 'K'; mgPerLitre: number; most: number | null }[];
}

/** What is told of a feed with such a product on its shelf. */
export interface Doubts {
  doubted: Doubted[];
  /** Left out because by its name it would carry a can over a most; used where that is not so, or where nothing else makes the feed. */
  used: boolean;
  /** Cans of a hundred and cost per litre of the feed without it; null where there is none, or where that is the feed that is given. */
  without: { share: number; costPerLitre: number } | null;
}

const ELEMENTS = ['N', 'P', 'K'] as const;
/** % of what a label prints in one of the element; oxides for phosphorus and potassium. */
const PRINTED = { N: 1, P: elementPerOxide('P2O5'), K: elementPerOxide('K2O') };

/** The products in a plan whose grade in the name contradicts their row. */
export function doubtedIn({ items, batchLitres, mix }: DosePlan, { programme }: FeedRequest): Doubted[] {
  return items.flatMap(({ product, chosen: { amount } }): Doubted[] => {
    const told = gradesOf(product);
    if (told === null) return [];
    const ifNamed = ELEMENTS.map((element, i) => {
      const held = mix.elements.find((line) => line.element === element)?.mgPerLitre ?? 0;
      const more = (told.grade[i]! - told.row[i]!) * PRINTED[element] * perPercent(product);
      const mgPerLitre = held + (more * amount) / batchLitres;
      return { element, mgPerLitre, most: programme.bands[element]?.max ?? null };
    });
    return [{ product: product.id, name: product.name || product.id, ...told, ifNamed }];
  });
}

/** Whether a can would be over a most by the name. */
export const overByName = ({ ifNamed }: Doubted): boolean =>
  ifNamed.some(({ mgPerLitre, most }) => most !== null && mgPerLitre > most);

/** mg that one per cent is in a g, or in a mL by mass and, as the other reading of a label, by volume. */
const perPercent = ({ form, density = 1 }: ClosedProduct): number => (form === 'liquid' ? 10 * density : 10);
const BY_VOLUME = 10;

function gradesOf(product: ClosedProduct): Pick<Doubted, 'grade' | 'row'> | null {
  const grade = product.formula === undefined ? gradeOf(product.name) : null;
  if (grade === null) return null;
  const { content } = product.composition;
  const rowBy = (per: number): number[] =>
    ELEMENTS.map((element) => (content[element].stated ?? 0) / PRINTED[element] / per);
  const agrees = (per: number): boolean =>
    rowBy(per).every((value, i) => content[ELEMENTS[i]!].stated === null || alike(value, grade[i]!));
  if (agrees(perPercent(product)) || (product.form === 'liquid' && agrees(BY_VOLUME))) return null;
  const [n, p, k] = rowBy(perPercent(product));
  return { grade, row: [n!, p!, k!] };
}
