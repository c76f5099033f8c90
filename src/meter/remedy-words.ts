import { formatNumber } from '../units/index.js';
import type { Cause } from './cause.js';
import type { Remedy } from './remedy.js';

type Told = Omit<Remedy, 'steps' | 'says' | 'alternatives'>;

/** What hands do, in order: pour off, top up, add, stir. @param severalWaters whether each has to be named */
export function stepsOf(
  { status, pourLitres, keepShare, waterLitres, waters, add, finalLitres }: Told,
  severalWaters: boolean,
): string[] {
  if (status === 'feed' || status === 'do not feed') return [];
  const steps: string[] = [];
  if (keepShare < 1) {
    steps.push(
      `Pour off ${figure(pourLitres)} L (${figure(100 * (1 - keepShare))} % of the can): onto the ground or into the drain as local rules allow.`,
    );
  }
  if (waterLitres > 0) steps.push(`Add ${watersText(waters, severalWaters)}, to about ${figure(finalLitres)} L.`);
  for (const item of add) steps.push(`Add ${item.words} ${item.name}; stir until it is clear.`);
  steps.push('Stir, wait a minute and read again.');
  return steps;
}

function watersText(waters: Told['waters'], several: boolean): string {
  return waters.map(({ name, litres }) => `${figure(litres)} L of ${several ? name : 'water'}`).join(' and ');
}

/** Why this remedy, and what it rests on. */
export function remedySays(remedy: Told, causes: readonly Cause[]): string[] {
  const says: string[] = [];
  const [likeliest] = causes;
  const over = likeliest?.kind === 'item' && likeliest.value.likely > 1.1 && likeliest.probability > 0.5;
  if (remedy.status === 'rescue' && over && remedy.add.length > 0 && (remedy.waterLitres > 0 || remedy.keepShare < 1))
    says.push('It thins out what is too much and makes up the others, so that the proportions come right.');
  // where the reading is within tolerance no cause has a name, and none needs one
  const words = (keys: readonly string[]): string[] => keys.flatMap((key) => short(key, causes) ?? []);
  const [safe, harmed] = [words(remedy.safeUnder), words(remedy.notUnder)];
  if (remedy.status === 'rescue' && safe.length > 1) says.push(`It is right under each of these: ${safe.join('; ')}.`);
  if (remedy.status === 'feed' && safe.length > 1 && causes.length > 0)
    says.push(`The can is good under each of these: ${safe.join('; ')}.`);
  if (harmed.length > 0 && remedy.status !== 'do not feed')
    says.push(`It would not be right if it was this instead: ${harmed.join('; ')}.`);
  if (remedy.aside.length > 0)
    says.push(
      `The plan itself does not keep these, so they count as kept where they are no further off than it leaves them: ${remedy.aside.join('; ')}.`,
    );
  return says;
}

function short(key: string, causes: readonly Cause[]): string | undefined {
  if (key === 'none') return 'nothing went wrong';
  return causes.find((cause) => cause.cause === key)?.words;
}

const figure = (x: number): string => formatNumber(x, 3);
