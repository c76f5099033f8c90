import type { NotShared, OneResult, Parts, SharedCan, SharedPlan } from '../../blend/one/one-types.js';
import { figure, money } from '../figures.js';
import { litresText } from '../sheet-page/readings.js';
import { fluidOuncesText, volumeText } from '../volume.js';
import { canCount } from './given.js';
import { limitSays } from './limits.js';
import { wayOutSays } from './way-out.js';

/** `moss, winter and cattleyas`. */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** The answer in one line: how many mixes, for which feeds, and how many cans of a hundred keep the limits. */
export function oneSays({ mixes, without }: Pick<OneResult, 'mixes' | 'without'>): string {
  const names = mixes.map(({ cans }) => listed(cans.map(nameOf)));
  const least = Math.min(...mixes.flatMap(({ cans }) => cans.map(({ sure }) => sure)));
  const none = without.length === 0 ? '' : `; no mix for ${listed(without)}`;
  if (mixes.length === 0) return `no mix for ${listed(without)}`;
  const cans = `${names.length > 1 || mixes[0]!.cans.length > 1 ? 'at least ' : ''}${canCount(least)} cans of each keep its limits`;
  const [only] = names;
  return mixes.length === 1
    ? `one mix for ${only}: ${cans}${none}`
    : `${COUNTS[mixes.length] ?? mixes.length} mixes: ${names.map((name, i) => `${letterOf(i)} for ${name}`).join(', ')}: ${cans}${none}`;
}

const COUNTS = ['', 'one', 'two', 'three', 'four', 'five', 'six'];

/** Mixes are told apart by letters. */
export const letterOf = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + index);

export const nameOf = ({ sharing }: Pick<SharedCan, 'sharing'>): string => sharing.request.header.name;

/** `1 part + 3 water`; nothing added where it is the mix as it is. */
export function partsSay({ mix, water }: Pick<Parts, 'mix' | 'water'>): string {
  return water === 0 ? 'as it is' : `${mix} ${mix === 1 ? 'part' : 'parts'} + ${water} water`;
}

/** A feed of a mix, as the sheet of the mix tells it: `1 part + 3 water: 1 L of it in 4 L`. */
export const dilutionSays = ({ parts, litres }: { parts: Omit<Parts, 'off'>; litres: number }): string =>
  parts.water === 0
    ? 'as it is'
    : `${partsSay(parts)}: ${mixInto(litres, parts)} of it into the can, water up to ${volumeText(litres)}`;

/** How much of the mix goes into a can of so many litres: `2.5 L`, `250 mL`; into a can with marks in US gallons `40 US fl oz (1.18 L)`. */
export function mixInto(litres: number, { share, water }: Pick<Parts, 'share' | 'water'>): string {
  return water === 0 ? volumeText(litres) : (fluidOuncesText(litres * share, litres) ?? litresText(litres * share));
}

/** How the doses of a mix are had although the kit alone could not; null where it can. */
export function wayOfMixSays({ wayOut, cans }: Pick<SharedPlan, 'wayOut' | 'cans'>): string | null {
  return wayOut && wayOutSays(wayOut, Math.min(...cans.map(({ sure }) => sure)), cans.length > 1);
}

/** Why feeds have no mix in common. */
export function apartSays({ feeds, why }: NotShared): string {
  if (why.kind === 'cans') return `${listed(feeds)} share no mix: of ${why.feed} too few cans would keep the limits.`;
  const limits = [
    ...new Set(
      why.against
        .filter(({ limit }) => limit.kind !== 'water')
        .map(({ limit, of }) => `${limitSays(limit)} (${of ?? feeds[0]})`),
    ),
  ];
  const reason = limits.length === 0 ? '' : `: these do not go together, ${limits.join('; ')}`;
  return `${listed(feeds)} share no mix within ${figure(why.stretch)} times what each is off its aims by itself${reason}.`;
}

/** What sharing costs, or saves. */
export function costSays({ cost, currency, mixes, separate }: OneResult): string | null {
  if (separate.length < 2 || (cost.one === 0 && cost.separate === 0)) return null;
  const over = cost.over === 'year' ? 'a year' : 'for a can of each';
  const what = mixes.length === 1 ? 'One mix' : `${mixes.length} mixes`;
  const differs = cost.one - cost.separate;
  const by =
    Math.abs(differs) < 0.005 ? 'the same' : `${money(Math.abs(differs), currency)} ${differs > 0 ? 'more' : 'less'}`;
  return `${what}: ${money(cost.one, currency)} ${over}; a mix for each: ${money(cost.separate, currency)} (${by}).`;
}
