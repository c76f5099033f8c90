import { type Checked, checked, type Where } from '../problem.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { isAboveWater } from './findings.js';
import { otherWater } from './named-water.js';
import { type OwnFeed, OwnStrengths } from './own-feed.js';
import { likelyGradeIons } from './bare-grade-ec.js';
import { translate } from './translate.js';
import type { Advice, AdviceHeld, AdviceReading, AdviceResult, OwnMatch } from './types.js';
import { canCautions, worstOfCans } from '../can/can-cautions.js';
import { cautionsFor, inOneList } from '../can/cautions.js';

/**
 * What others advise, as mg/L and mS/cm in every sense that the words can have, and the strength at which the grower's own feed gives the same
 * (null: no feed to hold it against). Never stronger than the feed's own programme allows.
 */
export async function translateAdvice(
  advice: Advice,
  own: OwnFeed | null,
  where: Where = {},
  owned: readonly ClosedProduct[] = [],
): Promise<Checked<AdviceResult>> {
  const read = translate(advice, where, owned, await likelyGradeIons(advice));
  if (!read.ok) return read;
  const { readings, certainty, notes, needed } = read.value;
  const strengths = own && new OwnStrengths(own);
  const matches: ({ low: OwnMatch; high: OwnMatch } | null)[] = [];
  for (const reading of strengths ? readings : [])
    matches.push(await (advice.around.atMost ? underCeiling(reading, strengths!) : strengths!.match(reading)));
  const ends = matches.flatMap((match) => (match ? [match.low, match.high] : []));
  const used = new Set(ends.flatMap((end) => end.items.map((item) => item.id)));
  const request = own?.at(own.percent) ?? null;
  const held = request !== null && ends.length > 0;
  if (own && !held) notes.push({ kind: 'no own feed' });
  const other = request && otherWater(advice.text, request.waters);
  if (other) notes.push(other);
  const told = {
    certainty,
    advice: advice.text,
    atMost: advice.around.atMost,
    readings,
    notes: distinct(notes),
    needed: distinct(needed),
    cautions: inOneList([
      cautionsFor(request?.shelf.filter((p) => used.has(p.id)) ?? [], own?.header ?? ''),
      worstOfCans(ends.flatMap(({ can }) => canCautions(can))),
    ]),
  };
  if (!held) return checked({ ...told, status: 'no feed' }, []);
  const beside = { feed: own!.header, waterEc: strengths!.waterEc, matches };
  return checked({ ...told, status: statusOf(ends), own: beside }, []);
}

/** Each finding once. */
const distinct = <T>(findings: readonly T[]): T[] => [
  ...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values(),
];

/** Below a ceiling lies everything from the feed as it is now, if it keeps it, to the strongest that does; weaker follows it as well. */
async function underCeiling(reading: AdviceReading, own: OwnStrengths): ReturnType<OwnStrengths['match']> {
  const { counts, wanted } = reading;
  if (counts === null || wanted === null) return null;
  const total = await own.now(counts);
  const now = total === null ? wanted.low : total - (isAboveWater(reading.sense) ? own.waterEc : 0);
  const low = Math.min(now, wanted.low);
  const ends = { low, high: wanted.high };
  let match = await own.match({ ...reading, wanted: ends });
  // amounts come in the steps of a kit: the strongest that keeps the ceiling may lie some steps below the nearest
  for (let step = 1; step <= STEPS_DOWN && match; step += 1) {
    const over = { low: isOver(match.low, wanted.high), high: isOver(match.high, wanted.high) };
    if (!over.low && !over.high) break;
    if (over.low) ends.low = low * (1 - step * STEP);
    if (over.high) ends.high = wanted.high * (1 - step * STEP);
    match = await own.match({ ...reading, wanted: ends });
  }
  const follows = (end: OwnMatch): OwnMatch => (end.reached < end.wanted ? { ...end, limitedBy: null } : end);
  return match && { low: follows(match.low), high: follows(match.high) };
}

/** Kept as nearly as a strength can be printed. */
const isOver = ({ reached, wanted }: OwnMatch, ceiling: number): boolean =>
  reached > Math.max(ceiling, wanted) * (1 + STEP / 4);
const STEP = 0.02;
const STEPS_DOWN = 8;

function statusOf(ends: readonly OwnMatch[]): AdviceHeld['status'] {
  const kept = ends.filter((end) => end.limitedBy === null).length;
  return kept === ends.length ? 'within' : kept > 0 ? 'partly' : 'outside';
}
