import { massShare } from '../chemistry/oxides.js';
import { number, type Rest, refuse, span } from './rest.js';
import type { Figure, PenScaleNamed, Span } from './types.js';
import * as words from './words.js';

/** The scale of a pen; null where a pen is named without one, undefined where none is. */
export function readScale(rest: Rest): PenScaleNamed | null | undefined {
  const found = rest.take(words.SCALE);
  if (!found) return undefined;
  const name = found.named1 ?? found.named2 ?? found.named3;
  if (name === undefined) return null;
  // 0,5: told like every decimal comma
  if (name.includes(',')) number(rest, name);
  return words.scaleNamed(name);
}

/** Every figure without a product: ppm, TDS, conductivity, EC, CF. */
export function readFigures(rest: Rest, scale: PenScaleNamed | null | undefined): Figure[] {
  const figures: Figure[] = [];
  const each = (pattern: RegExp, as: (found: Record<string, string | undefined>) => Figure | null): void => {
    for (let found = rest.take(pattern); found; found = rest.take(pattern)) {
      const figure = as(found);
      if (figure) figures.push(figure);
    }
  };
  each(words.PARTS, (found) => {
    const ppm = span(rest, found);
    const name = found.before ?? found.after;
    if (name !== undefined) {
      const { as, written } = words.NUTRIENT_WORDS.get(name.toLowerCase())!;
      return { kind: 'element', as, written, mgPerLitre: scaled(ppm, written === as ? 1 : massShare(as, written)) };
    }
    if (scale !== undefined || found.tds1 || found.tds2) return { kind: 'pen', ppm, scale: scale ?? null };
    return { kind: 'ppm', ppm };
  });
  each(words.BARE_TDS, (found) => ({ kind: 'pen', ppm: span(rest, found), scale: scale ?? null }));
  each(words.CONDUCTIVITY, (found) => ({
    kind: 'conductivity',
    mSPerCm: scaled(span(rest, found), found.micro ? 1 / 1000 : 1),
    note: null,
  }));
  each(words.CF, (found) => ({
    kind: 'conductivity',
    mSPerCm: scaled(span(rest, found), 1 / 10),
    note: { kind: 'CF' },
  }));
  each(words.BARE_EC, (found) => bareEc(rest, span(rest, found), found.whole!));
  return figures;
}

/** mS/cm between which a feed can read: rain stands at some 0.02, the sea at some 50 (from memory). */
const [PALEST, STRONGEST] = [0.02, 20];

/** An EC without a unit is in mS/cm or µS/cm; only one of the two can be a feed. */
function bareEc(rest: Rest, read: Span, written: string): Figure | null {
  const can = (s: Span): boolean => s.low >= PALEST && s.high <= STRONGEST;
  const micro = scaled(read, 1 / 1000);
  if (can(read) !== can(micro)) {
    const unit = can(read) ? 'mS/cm' : 'µS/cm';
    return {
      kind: 'conductivity',
      mSPerCm: can(read) ? read : micro,
      note: { kind: 'EC without unit', unit },
    };
  }
  refuse(
    rest,
    'advice-ec',
    `"${written}"`,
    `an EC of a feed, from ${PALEST} to ${STRONGEST} mS/cm`,
    'Write the unit: mS/cm (the same as dS/m) or µS/cm.',
  );
  return null;
}

const scaled = ({ low, high }: Span, by: number): Span => ({ low: low * by, high: high * by });
