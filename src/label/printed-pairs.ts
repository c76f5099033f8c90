/** A nutrient's name or a figure in a label's text. */
export interface Token {
  start: number;
  end: number;
  /** True for a number without a unit. */
  bare?: boolean;
  /** True for one where other figures have a unit: it is likely to be something else. */
  stray?: boolean;
  isFigure: boolean;
}

/**
 * Which figure is said of which name: the pairing of neighbours that reads most naturally as a whole, so that one name that was not
 * understood does not shift all the others. `Total Nitrogen (N) 12 %  10.5 % Nitrate Nitrogen` and `5 % nitric nitrogen  7 % ureic
 * nitrogen` alike.
 * @param tokens in the order of the text
 * @returns the name of each figure that has one
 */
export function pairsOf<T extends Token>(tokens: readonly T[], text: string): Map<T, T> {
  // costs from each token to the end, and what is done there
  const best: { cost: number; pair: boolean }[] = [];
  best[tokens.length] = { cost: 0, pair: false };
  for (let i = tokens.length - 1; i >= 0; i -= 1) {
    const alone = { cost: best[i + 1]!.cost + unpaired(tokens[i]!), pair: false };
    const next = tokens[i + 1];
    const cost =
      next === undefined ? Infinity : costOf(tokens[i]!, next, text) + best[Math.min(i + 2, tokens.length)]!.cost;
    best[i] = cost < alone.cost ? { cost, pair: true } : alone;
  }
  const pairs = new Map<T, T>();
  for (let i = 0; i < tokens.length; i += 1) {
    if (!best[i]!.pair) continue;
    const [first, second] = [tokens[i]!, tokens[i + 1]!];
    if (first.isFigure) pairs.set(first, second);
    else pairs.set(second, first);
    i += 1;
  }
  afterBrackets(tokens, pairs, text);
  return pairs;
}

/** A name often stands for itself; a figure with a unit hardly ever. */
const unpaired = ({ isFigure, bare, stray }: Token): number => (!isFigure ? 3 : stray ? 0 : bare ? 8 : 30);

/** How unlikely it is that one of two neighbours is said of the other; the scale is common practice, no source. */
function costOf(first: Token, second: Token, text: string): number {
  if (first.isFigure === second.isFigure) return Infinity;
  const between = text.slice(first.end, second.start);
  const nameFirst = second.isFigure;
  if (second.stray || first.stray)
    return nameFirst ? costOfBare(between, text.slice(second.end)) : costOfListed(text, first, between, second);
  if (between.length >= 90) return Infinity;
  const lines = between.split('\n').length - 1;
  if (lines > 1) return Infinity;
  const marks: readonly [RegExp, number, number][] = [
    [/,/g, 3, 8],
    [/[;/]|\.\s|\s·\s/g, 10, 10],
    [/[:=]/g, -1, 10],
    [/\(/g, 1, 2],
    [/\)/g, 1, 8],
    [/\s[-–—]\s/g, 1, 6],
    [/\+/g, 6, 6],
    [/\|/g, 0.5, 8],
  ];
  const ofMarks = marks.reduce((sum, [mark, before, after]) => {
    return sum + (between.match(mark) ?? []).length * (nameFirst ? before : after);
  }, 0);
  const words = (between.match(/[a-z]{2,}/gi) ?? []).reduce((sum, word) => sum + (FILLING.test(word) ? 0.3 : 1.2), 0);
  // of two readings alike the one with names first
  return ofMarks + words + lines * (nameFirst ? 6 : 12) + (nameFirst ? 0 : 0.1);
}

/** Words that stand between a nutrient and its figure. */
const FILLING =
  /^(?:as|of|in|the|by|with|and|which|form|from|soluble|water|total|chelated|complexed|combined|available|is|max(?:imum)?|min(?:imum)?|not|less|than|at|least|up|to|neutral|ammonium|citrate|EDTA|DTPA|EDDHA|HEEDTA|agent|available|slowly|more|content|expressed)$/i;

/** A number without a unit counts right behind its name, at the end of its clause. */
const costOfBare = (between: string, after: string): number =>
  /^\s*(?:\([^()\n]*\))?[\s:=|)]*$/.test(between) &&
  !/\n/.test(between) &&
  /^\s*(?:$|[\n,;|)]|\/\s*[A-Z]|\.\s|\s(?=[A-Z(]))/.test(after)
    ? 1
    : Infinity;

/** `15 % (13.5 nitrate, 1.5 ammoniacal)`: in a list of its own it may stand right before its name. */
const costOfListed = (text: string, { start }: Token, between: string, { end }: Token): number =>
  /[(,;]\s*$/.test(text.slice(0, start)) && /^[ \t]+$/.test(between) && /^\s*[),;]/.test(text.slice(end))
    ? 2
    : Infinity;

/** `Total Nitrogen (nitrate 10.5 %, ammoniacal 1.5 %) 12 %`: a figure without a name goes to what stands before the brackets. */
function afterBrackets<T extends Token>(tokens: readonly T[], pairs: Map<T, T>, text: string): void {
  const taken = new Set(pairs.values());
  tokens.forEach((figure, i) => {
    if (!figure.isFigure || figure.bare || pairs.has(figure)) return;
    const name = tokens.slice(0, i).findLast((other) => !other.isFigure && !taken.has(other));
    if (name === undefined || !/^\s*\([^()]*\)\s*[:=]?\s*$/.test(text.slice(name.end, figure.start))) return;
    pairs.set(figure, name);
    taken.add(name);
  });
}
