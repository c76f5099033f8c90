import { type Row, solve } from '../../solver/index.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import { aimsOf, type NearAsked, nearBands, widthOf } from '../feed/near.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import { termsOf } from '../feed/terms.js';
import { firstLinearisation } from './ec-row.js';
import { ecRowOf, formulate } from './formulate.js';

/** The least factor of widths around the aims at which a mix keeps the limits, on one linearisation. */
export interface LeastWidth {
  factor: number;
  /** True where the EC cap holds it there: on another linearisation it may be less. */
  pressed: boolean;
}

const ROUNDS = 8;
/** From one round to the next; what is left then is about the square of it. */
const SETTLED = 0.01;
const WIDTH = 'width';

/**
 * One linear program a round, instead of one for each width that a bisection tries: with the factor as a column, `content ≤ aim · width` is a
 * row, and `content ≥ aim / width`, which bends, is kept by its tangent at the factor of the round before. A tangent lies below, so each round
 * is a certified bound from below, and they close in as Newton's steps do.
 * @param asked nitrogen and what is left out; nothing less than its factor is sought
 * @param from the factor of the first tangents; any will do, the nearer the answer the fewer rounds
 * @returns null where no mix is as near to nitrogen's aim, or none keeps the limits on that linearisation
 */
export async function leastWidth(
  request: FeedRequest,
  asked: NearAsked,
  from = asked.factor,
  linearisation: EcLinearisation | null = ecCap(request) === null ? null : firstLinearisation(request),
): Promise<LeastWidth | null> {
  const { programme, shelf, waters } = request;
  const { N } = nearBands(programme, asked);
  const formulated = formulate({ ...request, near: N ? { N } : {} }, linearisation);
  const { columns, rows } = formulated.program;
  const held = aimsOf(programme)
    .filter(([nutrient]) => nutrient !== 'N' && !asked.without.includes(nutrient) && !asked.apart?.includes(nutrient))
    .map(([nutrient, aim]) => ({
      nutrient,
      aim,
      width: widthOf(nutrient, 1),
      terms: termsOf(shelf, waters, new Map([[nutrient, 1]]), 'stated'),
    }));
  const most = held.map(
    ({ nutrient, aim, width, terms }): Row => ({
      id: `width most ${nutrient}`,
      upper: 0,
      terms: { ...terms, [WIDTH]: -aim * width },
    }),
  );
  const least = (at: number): Row[] =>
    held.map(({ nutrient, aim, width, terms }) => ({
      id: `width least ${nutrient}`,
      lower: (2 * aim) / (width * at),
      terms: { ...terms, [WIDTH]: aim / (width * at * at) },
    }));
  const free = columns.map((column) => ({ ...column, cost: 0 }));
  const ec = ecRowOf(formulated);
  let factor = from;
  for (let round = 1; ; round += 1) {
    const verdict = await solve({
      columns: [...free, { id: WIDTH, cost: 1, lower: asked.factor }],
      rows: [...rows, ...most, ...least(factor)],
    });
    if (verdict.verdict !== 'optimal') return null;
    const before = factor;
    factor = verdict.x[WIDTH]!;
    if (Math.abs(factor / before - 1) <= SETTLED || round === ROUNDS)
      return { factor, pressed: ec !== undefined && (verdict.y[ec.id] ?? 0) !== 0 };
  }
}
