import type { SheetPage } from './page.js';

/** How large a sheet may be set so that it keeps to one page: factors on the root size. */
export interface Fit {
  page: number;
  /** On top of it for what is looked up, not read at arm's length. */
  small: number;
  card: number;
}

/**
 * Estimated from the lines that each part takes. There is no script on the page that could measure, so the estimate is on the safe side; the
 * browser test holds it against A4, Letter and A6.
 */
export function fitOf(page: SheetPage): Fit {
  const small = scale(LETTER.height, (s) => pageHeight(page, 1, s) / s, 1, SMALL);
  return {
    small,
    page: scale(LETTER.height, (s) => pageHeight(page, s, small), 1, SMALLEST),
    card: scale(CARD.height, (s) => cardHeight(page, s), 1.3, SMALLEST),
  };
}

/** Room between the margins in em of the root size: Letter is the lower of the two papers, A4 the narrower. Letters per em of Arial: 2.2. */
const LETTER = { height: 69.5, width: 51.5 };
const CARD = { height: 59, width: 37 };
const LETTERS = 2.2;

/** The largest factor at which the height fits, or the least one; smaller letters also make fewer lines. */
function scale(room: number, height: (factor: number) => number, most: number, least: number): number {
  let factor = most;
  while (factor > least && height(factor) > room / factor) factor -= 0.02;
  return Math.round(100 * Math.max(least, factor)) / 100;
}

const SMALLEST = 0.5;
/** What is looked up may shrink to 7 pt before the rest has to. */
const SMALL = 0.8;

/** Lines of a text in a column so many em wide, set at a size. */
const lines = (text: string, width: number, size = 1): number =>
  Math.max(1, Math.ceil((text.length * size) / (width * LETTERS)));

const sum = (parts: readonly number[]): number => parts.reduce((a, b) => a + b, 0);

/** Height in em of the page's own size, where its lines are `LETTER.width / factor` wide. */
function pageHeight(page: SheetPage, factor: number, small: number): number {
  const width = LETTER.width / factor;
  const left = (width - 1.6) * 0.555;
  const right = (width - 1.6) * 0.445;
  const looked = 0.84 * small;
  const rows = (text: string, wide: number): number => lines(text, wide, looked);
  const list = (items: readonly string[], wide: number): number =>
    items.length === 0 ? 0 : 1.66 + sum(items.map((item) => 1.22 * rows(item, wide - 1.5)));
  const ladder = 3.1 + sum(page.ladder.map(({ says }) => 0.1 + 1.24 * rows(says, left - 13 * small)));
  const few = page.beside === null ? 0 : 3.1 + 1.4 * page.beside.rows.length;
  const can = page.bars.length === 0 ? 0 : 3.6 + 1.24 * page.bars.length;
  const columns = Math.max(
    ladder + few + list(page.sureness, left) + list(page.notes, left),
    can + list(page.unseen, right) + list([page.keeps], right),
  );
  const cautions = 2.6 + sum(page.cautions.map((text) => 1.22 * lines(text, (width - 4) / 2, 0.8 * small))) / 2;
  return (
    head(page, width) +
    bottles(page, width) +
    steps(page, width - (page.twoScales ? 22 : 16)) +
    2.3 +
    tickOff(page, width) +
    looked * columns +
    0.8 * small * cautions +
    0.6 +
    3.8
  );
}

function cardHeight(page: SheetPage, factor: number): number {
  const width = CARD.width / factor;
  const cautions =
    2 + sum([page.cautions[0] ?? '', ...page.cautions.slice(-3)].map((text) => 0.9 * lines(text, width - 2, 0.8)));
  const facts = sum(page.facts.slice(1, 4).map(({ value }) => 1.05 * lines(value, width - 5.5, 0.92)));
  const off = page.ladder.map(({ pen, says }) => `${pen} ${says} · `).join('');
  const run = 0.6 + 0.86 * lines(`If the reading at the end is off ${off}`, width, 0.78);
  return (
    5 +
    title(page, width) +
    alert(page, width) +
    facts +
    bottles(page, width) +
    steps(page, width - 14) +
    1 +
    tickOff(page, width) +
    run +
    1.2 * lines(page.keeps, width - 9) +
    cautions +
    5
  );
}

/** Lines of the title beyond its first; the date stands beside it. */
const title = (page: SheetPage, width: number): number => 1.9 * (lines(page.title, width - 16, 1.7) - 1);

const alert = (page: SheetPage, width: number): number =>
  page.alert.length === 0 ? 0 : 1.4 + sum(page.alert.map((text) => 1.22 * lines(text, width - 2.5)));

const tickOff = ({ tickOff: says }: SheetPage, width: number): number =>
  says === null ? 0 : 0.8 + 1.1 * lines(says, width, 0.82);

/** What was chosen, and the bottles that are made once. */
const bottles = ({ wayOut, weigh, bottles: made }: SheetPage, width: number): number =>
  sum([wayOut, weigh?.says, ...(weigh?.commands ?? [])].map((text) => (text ? 0.4 + 1.3 * lines(text, width) : 0))) +
  sum(made.map(({ steps: once }) => 2.2 + sum(once.map((one) => 1.3 * lines(one, width - 2, 0.9)))));

function head(page: SheetPage, width: number): number {
  const half = (width - 1.5) / 2 - 5;
  const [first, ...rest] = page.facts.map(({ value }) => value);
  const pairs = rest.flatMap((value, i) =>
    i % 2 === 0 ? [Math.max(lines(value, half), lines(rest[i + 1] ?? '', half))] : [],
  );
  return 4.2 + title(page, width) + alert(page, width) + 1.2 * (lines(first ?? '', width - 5) + sum(pairs)) + 1;
}

function steps(page: SheetPage, width: number): number {
  return (
    1.7 +
    sum(
      page.lines.map((line) => {
        const small = [line.others, line.effect, line.how].filter((text) => text !== '').join(' · ');
        const large = 1.4 * line.amount.length + 1.15 * line.what.length;
        const rows = 1.75 * Math.max(1, Math.ceil(large / (width * LETTERS)));
        return 0.6 + rows + (small === '' && line.reading === null ? 0 : 1.02 * lines(small, width, 0.82));
      }),
    )
  );
}
