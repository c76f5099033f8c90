import { atDoor } from '../../door.js';
import { formatNumber, parseAmount } from '../../units/index.js';
import { WATER, WATER_NAME } from '../spoken/spelled.js';
import { N, SAME, withUnitOf } from './amounts.js';
import { on } from './patterns.js';
import type { AskedBack, BatchSpokenOf, ReadClause } from './types.js';

/** So much water as it is said. */
const VOLUME = String.raw`(?:about\s+|around\s+|roughly\s+)?(?:${N}|an?|one)\s*(?:${WATER}|ml|mls|millilit(?:re|er)s?)(?![\p{L}\d])`;
const INSTEAD = String.raw`(?:\s+(?:instead of|rather than|not)\s+(?<meant>${VOLUME}|${N}))?`;
const FILL = String.raw`(?:filled|topped|made|fill|brought)(?: it| the can| the jug| the bottle| the bucket)?(?: up)?`;
const USED = String.raw`(?:there (?:is|are|was)|it (?:has|had|holds|held)|used|took|measured|poured in|put in|added|mixed (?:it )?(?:in|with|into)|made (?:it )?(?:in|with)|in|with|into)`;
const ONLY = String.raw`(?:only |just )?`;

const FILLED_TO = on(
  String.raw`${ONLY}${FILL} ${ONLY}(?:up )?(?:to|with) ${ONLY}(?<volume>${VOLUME})(?: of water| of it)?${INSTEAD}(?: of water)?`,
);
const SO_MUCH = on(String.raw`${ONLY}(?:${USED} )?${ONLY}(?<volume>${VOLUME})(?: of)? water${INSTEAD}(?: of water)?`);
const INSTEAD_OF = on(
  String.raw`${ONLY}(?:${USED} )?${ONLY}(?<volume>${VOLUME})(?: of water)?${INSTEAD}(?: of water)?`,
);
const IN_IT = on(
  String.raw`${ONLY}(?:there (?:is|are|was|were)|water(?: is| was)?(?: filled)?(?: up)? to|it (?:holds|held)) ${ONLY}(?<volume>${VOLUME})(?: of water)?(?: in it| in the can| in the jug| in)?`,
);
const MORE = [
  on(String.raw`(?<side>overfilled|underfilled)(?: it| the can)? by (?<volume>${VOLUME})(?: of water)?`),
  on(
    String.raw`(?:added |put in |used )?(?<volume>${VOLUME})(?: of water)? (?<side>too much|too many|more|extra|too little|too few|short|less|missing)(?: water)?`,
  ),
  on(
    String.raw`(?:added )?(?<volume>${VOLUME}) (?<side>too much|too many|more|extra|too little|too few|short of|less)(?: of)? (?:the )?water`,
  ),
  on(String.raw`(?<side>too much|too little) water by (?<volume>${VOLUME})`),
];
const TIMES = on(
  String.raw`${ONLY}(?:${USED} )?(?<many>twice|double|half|2 x|2x|three times|3 times|a quarter of|a third of|three quarters of)(?: of)?(?: the| as much)?(?: amount of)? water`,
);
const NOT_TOPPED = on(
  String.raw`(?:forgot(?:ten)? to (?:top (?:it )?up|fill (?:it )?up)(?: to the mark| with water)?|not topped (?:it )?up|(?:did not|never) (?:top|topped|fill|filled) (?:it )?up(?: to the mark)?|topping up forgotten|forgot (?:the )?topping up)`,
);
const HALF_FULL = on(
  String.raw`(?:${FILL} )?${ONLY}(?:about )?(?:half ?full|half ?way(?: up)?|3\/4 full|three quarters full)|(?:did not|not) (?:fill|filled)(?: it| the can)?(?: up)?(?: all the way)? to the mark`,
);
const BRIM = on(String.raw`${FILL} (?:up )?(?:to )?(?:the (?:brim|top|rim|full)|full|completely)`);
const VAGUE = on(
  String.raw`(?:used |added |filled )?(?:a (?:bit|little) )?(?:too much|too little|more|less|not enough|extra) water|overfilled(?: it| the can)?|underfilled(?: it| the can)?|(?:forgot )?(?:the )?water(?: forgotten| twice)?`,
);
const NAME = String.raw`(?:${WATER_NAME}|water from the (?:tap|well|barrel)|(?:the )?(?:tap|mains|distilled|softened|osmosis|well))(?![\p{L}\d])`;
const NAMED = on(
  String.raw`${ONLY}(?:${USED} |it was |was )?(?<water>${NAME})(?: (?:instead of|rather than|not|in place of) (?<meant>${NAME}))?(?: went in| was used)?`,
);
const PARTS: ReadonlyMap<string, number> = new Map([
  ['twice', 2],
  ['double', 2],
  ['2 x', 2],
  ['2x', 2],
  ['three times', 3],
  ['3 times', 3],
  ['half', 0.5],
  ['a quarter of', 0.25],
  ['a third of', 1 / 3],
  ['three quarters of', 0.75],
]);

/** A clause about the water: how much, to where, or which. */
export function waterClause(clause: string, batch: BatchSpokenOf): ReadClause {
  if (NOT_TOPPED.test(clause)) return notTopped(batch);
  const filled = FILLED_TO.exec(clause) ?? IN_IT.exec(clause) ?? SO_MUCH.exec(clause) ?? meantVolume(clause);
  if (filled?.groups) return filledTo(filled.groups.volume!, filled.groups.meant, batch);
  const more = MORE.map((pattern) => pattern.exec(clause)).find((match) => match !== null);
  if (more?.groups) {
    const by = volumeOf(more.groups.volume!);
    const sign = /much|many|more|extra|over/.test(more.groups.side!) ? 1 : -1;
    return typeof by === 'number' ? toLitres(batch.litres + sign * by, clause) : by;
  }
  const times = TIMES.exec(clause);
  if (times?.groups) return toLitres(PARTS.get(times.groups.many!)! * batch.litres, clause);
  if (BRIM.test(clause))
    return batch.brimLitres === null
      ? asked(
          `"${clause}"`,
          'how much the can then holds',
          atDoor({
            typed: 'Say --brim with what it holds, or write filled to 5 L.',
            page: 'Write for example filled to 5 L.',
          }),
        )
      : toLitres(batch.brimLitres, clause);
  if (HALF_FULL.test(clause)) return asked(`"${clause}"`, 'how full the can is', 'Write for example filled to 3 L.');
  if (VAGUE.test(clause))
    return asked(`"${clause}"`, 'how much water', 'Write for example filled to 5 L, or 1 L too much water.');
  const named = NAMED.exec(clause);
  return named?.groups ? whichWater(named.groups.water!, named.groups.meant, batch) : null;
}

/** `5 L instead of 4`: an amount alone is one of water only where the other one is told. */
function meantVolume(clause: string): RegExpExecArray | null {
  const match = INSTEAD_OF.exec(clause);
  return match?.groups?.meant === undefined ? null : match;
}

const asked = (found: string, expected: string, fix: string): { ask: AskedBack } => ({ ask: { found, expected, fix } });

function volumeOf(words: string): number | { ask: AskedBack } {
  const plain = words.replace(/^(?:about|around|roughly)\s+/, '').replace(/^(?:an?|one)\s+/, '1 ');
  const read = parseAmount(plain);
  if (read.ok && read.value.kind === 'volume') return read.value.millilitres / 1000;
  const [first] = read.ok ? [] : read.problems;
  return asked(first?.found ?? `"${words}"`, first?.expected ?? 'a volume', first?.fix ?? 'Write for example 5 L.');
}

function filledTo(words: string, meant: string | undefined, batch: BatchSpokenOf): ReadClause {
  const litres = volumeOf(words);
  if (typeof litres !== 'number') return litres;
  if (meant !== undefined) {
    const planned = volumeOf(withUnitOf(words, meant));
    if (typeof planned !== 'number') return planned;
    if (Math.abs(planned / batch.litres - 1) > SAME)
      return asked(
        `"instead of ${meant}", though this batch is for ${formatNumber(batch.litres, 4)} L`,
        'what was to go in as this batch has it',
        atDoor({
          typed:
            'Write how much water there is, without "instead"; or say how much was to be mixed with --mix, or which sheet with --sheet.',
          page: 'Write how much water there is, without "instead".',
        }),
      );
  }
  return toLitres(litres, words);
}

const LEAST = 0.1;
const MOST = 10;

function toLitres(litres: number, words: string): ReadClause {
  return litres > 0
    ? { ways: [{ share: 1, slips: [{ kind: 'litres', litres }] }] }
    : asked(`"${words}"`, 'some water', 'Write for example filled to 5 L.');
}

/** Whether so much water is no can of this batch: more likely a slip of the tongue. */
export const isNoCan = (litres: number, planned: number): boolean =>
  litres < LEAST * planned || litres > MOST * planned;

function notTopped({ items }: BatchSpokenOf): ReadClause {
  if ((items.at(-1)?.full ?? 1) < 1) return { ways: [{ share: 1, slips: [{ kind: 'topping' }] }] };
  return asked(
    'a can that was not topped up, though its recipe does not say how full it is before that',
    'how full it is',
    'Write for example filled to 3 L.',
  );
}

function whichWater(words: string, meant: string | undefined, batch: BatchSpokenOf): ReadClause {
  const found = waterNamed(words, batch);
  if (typeof found !== 'string') return found;
  if (meant !== undefined) {
    const other = waterNamed(meant, batch);
    if (typeof other !== 'string') return other;
    if (!batch.waters.includes(other))
      return asked(
        `"instead of ${meant}", though this batch is planned with ${batch.waters.join(' and ')}`,
        'the water that this batch was planned with',
        'Write which water went in, without "instead".',
      );
  }
  const isPlanned = batch.waters.length === 1 && batch.waters[0] === found;
  return { ways: [{ share: 1, slips: isPlanned ? [] : [{ kind: 'water', id: found }] }] };
}

function waterNamed(words: string, { knownWaters }: BatchSpokenOf): string | { ask: AskedBack } {
  const name = bare(words);
  const named = knownWaters.filter(({ id, names }) => [id, ...names].some((one) => bare(one) === name));
  const part =
    named.length > 0 ? named : knownWaters.filter(({ id, onBench }) => onBench && bare(id).split(' ').includes(name));
  const own = part.filter(({ onBench }) => onBench);
  const general = part.filter(({ onBench }) => !onBench && GENERAL.test(name));
  const meant = own.length > 0 ? own : general;
  if (meant.length === 1) return meant[0]!.id;
  return asked(
    `"${words}"${meant.length > 1 ? '' : ', of which the bench has no analysis'}`,
    meant.length > 1
      ? `one water: ${meant.map(({ id }) => id).join(' or ')}`
      : 'a water whose analysis is known: each house has its own',
    meant.length > 1
      ? 'Write its id.'
      : atDoor({
          typed:
            'Put its analysis into bench.yaml (the supplier prints it) and name it there, or read the water alone with the pen: --reading "1: 0.45".',
          page: 'Put its analysis into Plants (the supplier prints it), or read the water alone with the pen at the first step.',
        }),
  );
}

/** Much the same everywhere; any other water each house has its own of. */
const GENERAL =
  /^(?:rain|rainwater|ro|osmosis|reverse osmosis|distilled|deionised|deionized|demineralised|demineralized|pure|di)$/;

const bare = (words: string): string =>
  words
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .replace(/^(?:(?:clean|fresh|lukewarm|warm|plain|cold|your|my|the|room temperature)\s+)+/, '')
    .replace(/^water from the /, '')
    .replace(/(?<=\S)\s*water$/, '')
    .replace(/^r\.o\.$|^r\/o$/, 'ro')
    .trim();
