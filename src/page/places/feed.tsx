import { useEffect } from 'preact/hooks';
import { remember, say, tune } from '../actions.js';
import { isEmptyShelf } from '../edit/shelf.js';
import { Blocks } from '../parts/blocks.js';
import { EmptyShelf } from '../parts/empty-shelf.js';
import { useAnswer } from '../parts/use-answer.js';
import { More } from '../parts/more.js';
import { Tour } from '../parts/tour.js';
import { Waiting } from '../parts/waiting.js';
import { WhichFeed } from '../parts/which-feed.js';
import type { Tuned } from '../state.js';
import { FeedAnswer, FeedBeside, FeedHolds } from './feed-shown.js';
import { Sliders } from './feed-sliders.js';
import type { Place, PlaceProps } from './place.js';

/** The feed to give: what to measure, what the can then holds, and what other wishes would give. */
export const feedPlace: Place = {
  word: 'Feed',
  icon: 'M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z',
  View: FeedPlace,
};

/** Milliseconds after which a slider is taken to rest. */
const RESTS = 700;

const WAYS: [Tuned['way'], string][] = [
  ['given', 'This feed'],
  ['bare', 'Bare'],
  ['closest', 'Closest'],
];

function FeedPlace(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const { feed, tuned } = state.remembered;
  const bench = useAnswer(props, 'bench', 'bench', { texts });
  const asked = { texts, feed, tuned };
  const slid = tuned.way !== 'bare' && tuned.way !== 'one' && (tuned.strength ?? tuned.nh4 ?? tuned.near) !== undefined;
  // while a slider moves the doses come first; what stands beside them is worked out once it rests
  const quick = useAnswer(props, 'quick', 'quick', slid ? asked : null);
  const answer = useAnswer(props, 'feed', 'feed', asked, slid ? RESTS : 0);
  const before = answer.isCurrent ? undefined : quick.isCurrent ? (quick.answer ?? undefined) : undefined;
  const view = before ?? answer.answer;
  const isCurrent = answer.isCurrent || before !== undefined;
  const isEmpty = isEmptyShelf(texts['shelf.csv']);
  const feeds = bench.answer?.feeds ?? [];
  const title = isCurrent ? (view?.title ?? '') : '';
  useEffect(() => {
    if (title !== '') desk.change((s) => say(s, title));
  }, [title]);
  return (
    <>
      <h2>Feed</h2>
      <Tour {...props} />
      {tuned.way !== 'one' && <WhichFeed desk={desk} feeds={feeds} feed={feed} />}
      <fieldset class="ways">
        <legend>Which mix</legend>
        {[...WAYS, ...(feeds.length > 1 ? [['one', 'One for all pots'] as const] : [])].map(([way, word]) => (
          <label key={way}>
            <input
              type="radio"
              name="way"
              checked={tuned.way === way}
              onChange={() => desk.change((s) => tune(s, { way }))}
            />
            <span>{word}</span>
          </label>
        ))}
      </fieldset>
      {isEmpty ? (
        <EmptyShelf desk={desk} />
      ) : (
        answer.status !== 'answered' && <Waiting answer={answer} desk={desk} channel="feed" />
      )}
      {view && !isEmpty && answer.status !== 'refused' && (
        <div class={isCurrent ? undefined : 'old'} aria-busy={!answer.isCurrent}>
          <FeedAnswer view={view} />
          <div class="row">
            <button type="button" class="main" onClick={() => desk.change((s) => remember(s, 'place', 'sink'))}>
              Mix it at the sink
            </button>
          </div>
          <div class="two">
            <div>
              <FeedHolds view={view} />
            </div>
            <div>
              <Sliders state={state} desk={desk} strength={view.strength} feed={feed ?? feeds[0]?.name ?? ''} />
              <FeedBeside view={view} way={tuned.way} />
            </div>
          </div>
          {view.cautions.length > 0 && (
            <article>
              <Blocks blocks={view.cautions} />
            </article>
          )}
          <article>
            <More title="The whole report, with its proof">{() => <Blocks blocks={view.blocks} />}</More>
          </article>
        </div>
      )}
    </>
  );
}
