import type { Token } from './tokens.js';

type Basis = Extract<Token, { kind: 'basis' }>;

/** So much of a thing in so much water, as words. */
export interface Portion {
  /** Amounts told of it: one, or several where the sentence tells it twice; none where it tells no number. */
  amounts: string[];
  item: string;
  /** null where no water is told for it. */
  basis: Basis | null;
}

interface Clause {
  before: string[];
  amounts: string[];
  after: string[];
  bases: Basis[];
  /** A basis that stands with its amount (`1 g/L base`): it is no other's. */
  own: boolean;
  /** The water stands before the amount: it is that of all that follow. */
  isLed: boolean;
  /** `a teaspoon each of base and kelp`. */
  isEach: boolean;
  joint: string;
}

const empty = (joint = ''): Clause => ({
  before: [],
  amounts: [],
  after: [],
  bases: [],
  own: false,
  isLed: false,
  isEach: false,
  joint,
});

/** Words around a portion that say nothing of what it is. */
const IDLE =
  /^(?:i|we|you|they|it|them|just|simply|always|usually|only|also|first|next|finally|lastly|now|use[ds]?|using|add(?:ed|ing)?|mix(?:ed|ing)?|dissolv(?:e|ed|ing)|stir(?:red|ring)?|put|give|giving|feed(?:ing)?|try|go|going|with|in|into|is|are|was|my|our|your|the|a|an|of|at|to|for|orchids?|plants?|recipe|about|around|roughly|approximately|approx\.?|some|please|should|would|can|and|then|so|do|take|dose|dosage|rate|well|until|clear|that|this|gets?|from|each|every|everything|together|fertili[sz](?:e|ers?|ing)|food|can|watering|fill(?:ed)?|barrel|bucket|jug|jar|container|tank|-|–|—|:|,|\.|!|=|~|\(|\))$/i;

/** The portions of a sentence, in the order told. */
export function portionsOf(tokens: readonly Token[]): Portion[] {
  const clauses = joined(clausesOf(tokens));
  return clauses.flatMap((clause, i): Portion[] => {
    const item = itemOf(clause);
    if (clause.amounts.length === 0 && item === '') return [];
    const items = clause.isEach ? item.split(/\s(?:and|plus|,|&|\+|;)\s/i) : [item];
    return items.map((one) => ({ amounts: clause.amounts, item: one.trim(), basis: basisOf(clauses, i) }));
  });
}

function clausesOf(tokens: readonly Token[]): Clause[] {
  const clauses = [empty()];
  let last: Token | undefined;
  for (const token of tokens) {
    let clause = clauses.at(-1)!;
    if (token.kind === 'joint') clauses.push(empty(token.text));
    else if (token.kind === 'basis') {
      clause.bases.push(token);
      if (clause.amounts.length === 0) clause.isLed = true;
      if (last?.kind === 'amount' && (token.isSlash || said(clause.before).length === 0)) clause.own = true;
    } else if (token.kind === 'amount') {
      // `1 g base 2 g kelp`: a new portion without a word between
      if (clause.amounts.length > 0 && said(clause.after).length > 0 && said(clause.before).length === 0) {
        clause = empty();
        clauses.push(clause);
      }
      clause.amounts.push(token.text);
    } else if (clause.amounts.length > 0 && clause.after.length === 0 && /^each$/i.test(token.text))
      clause.isEach = true;
    else (clause.amounts.length > 0 || clause.own ? clause.after : clause.before).push(token.text);
    last = token;
  }
  return clauses;
}

/** A name that a joint cuts (`calcium and magnesium`) is put together again; clauses that say nothing are left out. */
function joined(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  let ahead: string[] = [];
  for (const clause of clauses) {
    const words = said([...clause.before, ...clause.after]);
    // a number whose unit is not known is no name
    const isName = clause.amounts.length === 0 && words.length > 0 && !words.some((word) => /^[\d.,/]+$/.test(word));
    const previous = out.at(-1);
    if (isName && previous && previous.amounts.length > 0 && said(previous.after).length > 0) {
      previous.after.push(clause.joint, ...words);
      previous.bases.push(...clause.bases);
      continue;
    }
    if (isName && clause.bases.length === 0) {
      ahead = [...ahead, ...(ahead.length > 0 ? [clause.joint] : []), ...words];
      continue;
    }
    if (ahead.length > 0) {
      clause.before = [...ahead, clause.joint, ...clause.before];
      ahead = [];
    }
    if (words.length > 0 || clause.amounts.length > 0 || clause.bases.length > 0) out.push(clause);
  }
  if (ahead.length > 0) out.push({ ...empty(), before: ahead });
  return out;
}

const said = (words: readonly string[]): string[] => words.filter((word) => !IDLE.test(word));

/** Without idle words in front of and behind it; those within a name stay. */
function itemOf({ before, after }: Clause): string {
  const words = [...(said(before).length > 0 ? before : []), ...after].flatMap((word) =>
    word.split(/(?<=\S)[:=,.!)]+$|^[(:=]+/),
  );
  while (words.length > 0 && (words[0] === '' || IDLE.test(words[0]!))) words.shift();
  while (words.length > 0 && (words.at(-1) === '' || IDLE.test(words.at(-1)!))) words.pop();
  return words.join(' ').trim();
}

/** Its own water; else that told before all portions, else the next one told behind it that belongs to no other. */
function basisOf(clauses: readonly Clause[], i: number): Basis | null {
  const own = clauses[i]!.bases[0];
  if (own !== undefined) return own;
  const first = clauses.findIndex((clause) => clause.amounts.length > 0);
  const ahead = clauses.slice(0, first).flatMap(({ bases }) => bases)[0] ?? leading(clauses[first]);
  if (ahead !== undefined) return ahead;
  const behind = clauses.slice(i + 1).find(({ bases }) => bases.length > 0);
  return behind === undefined || behind.own ? null : behind.bases[0]!;
}

/** `in 4 L of water dissolve 1 g base`: the water stands before the first amount of its clause. */
const leading = (clause: Clause | undefined): Basis | undefined => (clause?.isLed ? clause.bases[0] : undefined);
