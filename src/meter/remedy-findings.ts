import { formatNumber } from '../units/index.js';
import { type Batch, isMisfilled, plannedLitres } from './batch.js';
import { type Cause, NO_FAULT } from './cause.js';
import type { Alternative, Because, Doing, Outlook, SettledRemedy } from './remedy.js';

/** Why this remedy, and what it rests on. @param causes none where the readings are within tolerance: there no cause has a name */
export function becauseOf(
  status: SettledRemedy['status'],
  doing: Doing | null,
  { safeUnder, notUnder, aside }: Pick<Outlook, 'safeUnder' | 'notUnder' | 'aside'>,
  batch: Batch,
  causes: readonly Cause[],
): Because[] {
  const [likeliest] = causes;
  const over = likeliest?.fault.kind === 'item' && likeliest.value.likely > 1.1 && likeliest.probability > 0.5;
  const named = (keys: readonly string[]): string[] =>
    keys.filter((key) => key === NO_FAULT || causes.some((cause) => cause.cause === key));
  const [safe, harmed] = [named(safeUnder), named(notUnder)];
  const found: (Because | false)[] = [
    // a can that reads as its doses do in the water that was measured is not as planned
    isMisfilled(batch) &&
      status !== 'feed' && { kind: 'other volume', plannedLitres: plannedLitres(batch), litres: batch.litres },
    status === 'rescue' && over && thinsOut(doing) && { kind: 'thins out' },
    status === 'rescue' && safe.length > 1 && { kind: 'right under', causes: safe },
    status === 'feed' && safe.length > 1 && causes.length > 0 && { kind: 'good under', causes: safe },
    status !== 'do not feed' && harmed.length > 0 && { kind: 'not right under', causes: harmed },
    aside.length > 0 && { kind: 'plan violates', limits: aside },
  ];
  return found.filter((because) => because !== false);
}

const thinsOut = (doing: Doing | null): boolean =>
  doing !== null && doing.add.length > 0 && (doing.waterLitres > 0 || doing.keepShare < 1);

/** Whether explanations ask for different things, as far as hands can tell them apart: to three digits. */
export function partWays(alternatives: readonly Alternative[]): boolean {
  return new Set(alternatives.map(({ asks }) => JSON.stringify(asksFor(asks)))).size > 1;
}

function asksFor(asks: Alternative['asks']): unknown[] {
  if (asks.status === 'feed' || asks.status === 'do not feed') return [asks.status];
  const figure = (x: number): string => formatNumber(x, 3);
  const { keepShare, pourLitres, jugs, waterLitres, waters, nameWaters, add, finalLitres } = asks.doing;
  return [
    asks.status,
    jugs,
    keepShare < 1 && [figure(pourLitres), figure(100 * (1 - keepShare))],
    waterLitres > 0 && [figure(finalLitres), waters.map(({ id, litres }) => [figure(litres), nameWaters && id])],
    add.map(({ id, amount, by }) => [id, by.kind === 'measure' ? by.words : formatNumber(amount, 6)]),
  ];
}
