import { atDoor } from '../../door.js';
import type { FeedSubstitutes, SubstitutesResult } from '../../purchase/substitutes-types.js';
import type { Stop } from '../../feed/proof.js';
import type { LeftOutNote, OtherCurrencyNote, PurchaseNote, PurchaseStep } from '../../purchase/types.js';

/** What is being sought. */
export function purchaseStepSays(step: PurchaseStep): string {
  switch (step.kind) {
    case 'best':
      return 'the best purchase';
    case 'near':
      return 'how near the market comes to the aims';
    case 'way':
      return step.way === 'simplest' ? 'the fewest new products' : 'the nearest to the aims';
    case 'doses':
      return 'the doses';
    case 'beside':
      return 'other ways to buy';
    case 'alone':
      return `${step.feed} alone`;
    case 'fewest':
      return 'the fewest products';
    case 'why not':
      return 'why nothing does';
    case 'substitutes':
      return 'what could stand in';
  }
}

/** What is worth knowing beside a purchase. */
export function purchaseNoteSays(note: PurchaseNote): string {
  switch (note.kind) {
    case 'stock unknown':
      return `The shelf does not say how much is left of ${note.products.join(', ')}: taken as enough. Fill in on_hand to have it counted.`;
    case 'other form':
      return `${note.products.join(', ')}: a powder on the shelf and a liquid on the market, or the other way; no more of it is bought.`;
    case 'not finished':
      return `Not finished: ${stopSays(note.stopped)} ${NOT_FINISHED[note.at]}${moreSays(note.stopped)}.`;
    case 'left out':
      return leftOutSays(note);
    case 'other currency':
      return otherCurrencySays(note);
  }
}

const NOT_FINISHED = {
  best: 'before the best was proved to be it, so no further options were sought',
  more: 'before all further options were found',
  beside: 'before everything that stands beside the options was reckoned',
};

/** What ended a search before it was finished, as the beginning of a sentence that goes on with "before". */
export function stopSays(stopped: Stop): string {
  switch (stopped.by) {
    case 'work':
      return 'the work that a search may take was spent';
    case 'time':
      return 'the seconds were over';
    case 'labels':
      return `the seconds were over with ${stopped.read} of ${stopped.of} labels read,`;
    case 'rounding':
      return `rounding stopped the search (${stopped.why})`;
  }
}

/** How to get further. */
export function moreSays({ by }: Stop): string {
  if (by === 'rounding') return '';
  return by === 'work'
    ? atDoor({ typed: '; --effort 10 lets it work longer', page: '; fewer new products at most let it get further' })
    : '; more seconds, or none named, let it go on';
}

/** What is worth knowing beside substitutes: feed by feed, then of the market. */
export function substitutesNotes({ feeds, product, notes }: SubstitutesResult): string[] {
  return [
    ...feeds.flatMap((feed) => feedNotes(feed, product.id)),
    ...notes.map((note) => (note.kind === 'left out' ? leftOutSays(note) : otherCurrencySays(note))),
  ];
}

function feedNotes(feed: FeedSubstitutes, id: string): string[] {
  const { name } = feed.feed;
  if (feed.status === 'no feed')
    return [
      atDoor({
        typed: `${name}: no feed was found to compare with; \`velamen blend\` says why.`,
        page: `${name}: no feed was found to compare with; Feed says why.`,
      }),
    ];
  const nearest = `${name}: the shelf keeps not every limit even with ${id}; the nearest feed is taken as the original.`;
  return [
    ...(feed.original.keepsLimits ? [] : [nearest]),
    ...(feed.status === 'not used' ? [`${name}: its feed takes no ${id}, so nothing is needed in its place.`] : []),
  ];
}

const REASONS: Readonly<Record<LeftOutNote['of'][number]['why'], string>> = {
  'no pack or price': 'without pack or price',
  'acid or alkali': 'for changing pH (acids and alkalis)',
  'cobalt or nickel': 'salts of cobalt or nickel',
};

const leftOutSays = ({ of }: LeftOutNote): string =>
  `Left out of the market: ${of.map(({ why, count }) => `${count} ${REASONS[why]}`).join(', ')}.`;

const otherCurrencySays = ({ of, bench }: OtherCurrencyNote): string =>
  atDoor({
    typed: `The catalog’s prices are in ${of} and this bench is in ${bench}: they are left out, and packs are counted instead. Name what is for sale where you are with --market FILE.`,
    page: `The catalog’s prices are in ${of} and this bench is in ${bench}: they are left out, and packs are counted instead.`,
  });
