import type { FeedSubstitutes, SubstitutesResult } from '../../purchase/substitutes-types.js';
import type { LeftOutNote, PurchaseNote, PurchaseStep } from '../../purchase/types.js';

/** What is being sought. */
export function purchaseStepSays(step: PurchaseStep): string {
  switch (step.kind) {
    case 'best':
      return 'the best purchase';
    case 'option':
      return `option ${step.number} of ${step.of}`;
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
    case 'no more options': {
      const { listed } = note;
      return `There ${listed === 1 ? 'is no option' : 'are no options'} beyond ${listed === 1 ? 'this one' : `these ${listed}`} that ${listed === 1 ? 'does' : 'do'} without part of each.`;
    }
    case 'time ran out':
      return note.why === null
        ? 'Time ran out, so no further options were sought; --seconds gives the search more.'
        : `Time ran out before more options were found (${note.why}); --seconds gives the search more.`;
    case 'left out':
      return leftOutSays(note);
  }
}

/** What is worth knowing beside substitutes: feed by feed, then of the market. */
export function substitutesNotes({ feeds, product, notes }: SubstitutesResult): string[] {
  return [...feeds.flatMap((feed) => feedNotes(feed, product.id)), ...notes.map(leftOutSays)];
}

function feedNotes(feed: FeedSubstitutes, id: string): string[] {
  const { name } = feed.feed;
  if (feed.status === 'no feed') return [`${name}: no feed was found to compare with; \`velamen blend\` says why.`];
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
