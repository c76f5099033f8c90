import { atDoor } from '../door.js';
import type { Absent, BlendCannot, BlendOpen, ConflictLine, Relaxation } from '../feed/results.js';
import type { GivenNone, NoneGiven } from '../blend/given-types.js';
import { commandLine, type Typed } from './command-line.js';
import { figure } from './figures.js';
import { ecBlocks, elementBlocks, missLines, mixBlocks, nitrogenBlocks, type PenScale } from './mix.js';
import { assumedSays } from './says/given.js';
import { changeSays, gradedLines, optionsOf, placeOf } from './says/none-given.js';
import { becauseLines } from './says/because.js';
import { limitFrom, limitSays } from './says/limits.js';
import { farkasSays, moveSays, sourceSays, waySays } from './says/why-not.js';
import { type Block, heading, inFull, list, paragraph, spoken, table } from './sheet.js';

/** What comes nearest as doses, what it lacks and how much that matters, and the change that helps most; with `--full` why there is no feed. */
export function noneGivenBlocks(result: GivenNone, pen: PenScale | null, typed: Typed | null): Block[] {
  const { given, feed } = result;
  return [
    ...nearestBlocks(given),
    ...changeBlocks(given, feed.name, typed),
    ...(given.plan === null
      ? []
      : [
          ...elementBlocks(given.plan.mix.elements),
          ...nitrogenBlocks(given.plan.mix),
          ...ecBlocks(given.plan.mix, pen),
        ]),
    ...inFull(whyNotBlocks(result, pen)),
  ];
}

function nearestBlocks({ plan, misses, assumed }: NoneGiven): Block[] {
  if (plan === null)
    return [
      paragraph(
        'NOTHING HERE CAN BE GIVEN: whatever your tools measure of it, too much of something that hurts is in it.',
        'bad',
      ),
      list(gradedLines(misses)),
    ];
  const rows = plan.items.map(({ product, chosen }) => [product.name || product.id, chosen.words]);
  return [
    heading('What comes nearest, in this order'),
    ...(rows.length === 0
      ? [paragraph('Nothing but the water.')]
      : [table(['', `for ${figure(plan.batchLitres)} L`], rows)]),
    ...assumedSays(assumed, plan.batchLitres).map((line) => paragraph(line)),
    heading('What it lacks'),
    list(gradedLines(misses)),
  ];
}

function changeBlocks({ changes }: NoneGiven, feed: string, typed: Typed | null): Block[] {
  if (changes.length === 0) return [];
  return [
    heading('What helps most'),
    ...changes.flatMap((change): Block[] => [
      paragraph(changeSays(change)),
      {
        kind: 'command',
        text: atDoor({ typed: commandLine(typed, feed, optionsOf(change.wanted)), page: placeOf(change.wanted, feed) }),
      },
    ]),
  ];
}

/** Why no feed keeps every limit, the ways out, and the nearest feed there is. */
export function whyNotBlocks(result: BlendCannot | BlendOpen, pen: PenScale | null): Block[] {
  const { relaxations, nearest, feed } = result;
  const blocks = result.status === 'cannot' ? conflictBlocks(result) : [];
  blocks.push(...waysOutBlocks(relaxations));
  if (nearest) {
    blocks.push(
      heading('The nearest feed there is'),
      paragraph('It keeps what it can and misses these limits:'),
      list(missLines(nearest.misses)),
      ...mixBlocks(nearest, feed, pen),
    );
  }
  return blocks;
}

function conflictBlocks({ conflict, absent, irreducible, farkas }: BlendCannot): Block[] {
  const blocks: Block[] = [heading('Why'), ...absentBlocks(absent)];
  // where something is missing altogether, the conflict of its one floor says the same again
  const only = conflict.length === 1 ? conflict[0]!.limit : null;
  const onlyAbsent =
    only?.kind === 'nutrient' && only.end === 'least' && absent.some((a) => a.element === only.nutrient);
  if (conflict.length > 0 && !onlyAbsent) {
    const where = absent.length > 0 ? 'Besides, th' : 'On this shelf th';
    const alone = irreducible ? '; without any one of them the rest could (an irreducible conflict)' : '';
    blocks.push(
      paragraph(
        only
          ? `${where}is limit cannot be kept with the rest:`
          : `${where}ese limits cannot all hold together${alone}:`,
        'bad',
      ),
      list(conflict.map(conflictLine)),
    );
    if (farkas) blocks.push(paragraph(spoken(farkasSays(farkas))));
  }
  return blocks;
}

function absentBlocks(absent: readonly Absent[]): Block[] {
  if (absent.length === 0) return [];
  const elements = absent.map((a) => a.element);
  return [
    paragraph(`Nothing on this shelf is known to hold ${enumerated(elements)}.`, 'bad'),
    list(
      grouped(absent).map(
        ({ names, by }) =>
          `${enumerated(names)}: ${by === '' ? 'nothing on the market either' : `would come from ${by}`}`,
      ),
    ),
  ];
}

/** Elements that the same kinds would bring, on one line. */
function grouped(absent: readonly Absent[]): { names: string[]; by: string }[] {
  const groups = new Map<string, string[]>();
  for (const { element, broughtBy } of absent) {
    const by = broughtBy.map(sourceSays).join(', or ');
    groups.set(by, [...(groups.get(by) ?? []), element]);
  }
  return [...groups].map(([by, names]) => ({ names, by }));
}

function conflictLine({ limit, because }: ConflictLine): string {
  // the first two tell the story; all of them are in the JSON
  const lines = because.flatMap(becauseLines);
  const rest = lines.length - 2;
  const told = [...lines.slice(0, 2), ...(rest > 0 ? [`${rest} more`] : [])].join('; ');
  return `${limitSays(limit)} (${limitFrom(limit)})${told === '' ? '' : `: ${told}`}`;
}

function waysOutBlocks(relaxations: readonly Relaxation[]): Block[] {
  if (relaxations.length === 0) return [];
  const enough = relaxations.filter((r) => r.kind !== 'together');
  const total = relaxations.find((r) => r.kind === 'together');
  const blocks: Block[] = [];
  if (enough.length > 0)
    blocks.push(heading('Ways out (relaxations), each enough by itself'), list(enough.map(wayLine)));
  const singles = enough.filter((r) => r.kind === 'single');
  if (total && total.moves.length > 1) {
    blocks.push(
      heading(
        singles.length === 0
          ? 'No single limit is enough; the least that together is'
          : 'Or a little of each, the least in total',
      ),
      list(total.moves.map(moveSays).map(({ limit, change }) => `${limit}: ${change}`)),
    );
  }
  return blocks;
}

function wayLine(way: Relaxation): string {
  const { limit, change } = waySays(way);
  return way.kind === 'strength' || way.kind === 'water' ? change : `${limit}: ${change}`;
}

function enumerated(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
