import { useEffect, useMemo } from 'preact/hooks';
import { remember, say, tune } from '../actions.js';
import type { Desk } from '../desk.js';
import { isEmptyShelf } from '../edit/shelf.js';
import { Blocks } from '../parts/blocks.js';
import { EmptyShelf } from '../parts/empty-shelf.js';
import { More } from '../parts/more.js';
import { Tour } from '../parts/tour.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import { WhichFeed } from '../parts/which-feed.js';
import type { Tuned } from '../state.js';
import type { FeedView } from '../work/feed.js';
import { FeedAnswer, FeedBeside, FeedHolds, FeedPen } from './feed-shown.js';
import { FeedTools } from './feed-tools.js';
import { Sliders } from './feed-sliders.js';
import type { Place, PlaceProps } from './place.js';
import { useMoving } from './use-moving.js';

/** The feed to give: what to measure, what the can then holds, and what other wishes would give. */
export const feedPlace: Place = {
  word: 'Feed',
  icon: 'M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z',
  View: FeedPlace,
};

/** Milliseconds after which a slider is taken to rest. */
const RESTS = 200;

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
  const slid = (tuned.strength ?? tuned.nh4 ?? tuned.near) !== undefined;
  const answer = useAnswer(props, 'feed', 'feed', { texts, feed, tuned }, slid ? RESTS : 0);
  const isEmpty = isEmptyShelf(texts['shelf.csv']);
  const { near, follows, touch } = useMoving(props, answer, isEmpty);
  const { answer: view, isCurrent, status } = answer;
  const feeds = bench.answer?.feeds ?? [];
  const title = isCurrent ? (view?.title ?? '') : '';
  useEffect(() => {
    if (title !== '') desk.change((s) => say(s, title));
  }, [title]);
  useEffect(() => {
    if (follows && status === 'asking') desk.change((s) => say(s, 'Working out the doses.'));
  }, [follows, status]);
  const isTold = isCurrent && status === 'answered';
  return (
    <>
      <h2>Feed</h2>
      <Tour {...props} />
      {tuned.way !== 'one' && <WhichFeed desk={desk} feeds={feeds} feed={feed} />}
      <Ways way={tuned.way} several={feeds.length > 1} desk={desk} />
      {isEmpty ? (
        <EmptyShelf desk={desk} />
      ) : (
        !isTold && !(follows && FOLLOWING.has(status)) && <Waiting answer={answer} desk={desk} channel="feed" />
      )}
      {view && !isEmpty && status !== 'refused' && (
        <div class={isCurrent || follows ? undefined : 'old'} aria-busy={!isCurrent}>
          {useMemo(
            () => (
              <FeedAnswer view={view} old={follows} />
            ),
            [view, follows],
          )}
          <div class="row">
            <button type="button" class="main" onClick={() => desk.change((s) => remember(s, 'place', 'sink'))}>
              Mix it at the sink
            </button>
          </div>
          <div class="two">
            <div class="moves" onPointerEnter={touch} onFocusCapture={touch}>
              <Sliders
                state={state}
                desk={desk}
                strength={(near ?? view).strength}
                feed={feed ?? feeds[0]?.name ?? ''}
                doses={follows ? status : null}
                isNear={near !== null}
              />
            </div>
            {useMemo(
              () => (
                <FeedHolds view={view} near={near} old={follows} />
              ),
              [view, near, follows],
            )}
            <div>
              {useMemo(
                () => (
                  <FeedPen view={view} near={near} old={follows} />
                ),
                [view, near, follows],
              )}
              {useMemo(
                () => (
                  <FeedBeside view={view} way={tuned.way} old={follows} />
                ),
                [view, tuned.way, follows],
              )}
            </div>
          </div>
          {useMemo(
            () => (
              <Reported view={view} old={follows} />
            ),
            [view, follows],
          )}
          {tuned.way !== 'one' && <FeedTools state={state} desk={desk} feed={feed ?? feeds[0]?.name ?? ''} />}
        </div>
      )}
    </>
  );
}

/** What a question can be at while the figures follow a slider. */
const FOLLOWING: ReadonlySet<string> = new Set(['asking', 'put off', 'answered', 'stopped']);

const Ways = ({ way: chosen, several, desk }: { way: Tuned['way']; several: boolean; desk: Desk }) => (
  <fieldset class="ways">
    <legend>Which mix</legend>
    {[...WAYS, ...(several ? [['one', 'One for all pots'] as const] : [])].map(([way, word]) => (
      <label key={way}>
        <input type="radio" name="way" checked={chosen === way} onChange={() => desk.change((s) => tune(s, { way }))} />
        <span>{word}</span>
      </label>
    ))}
  </fieldset>
);

/** Cautions and the whole report. */
const Reported = ({ view, old }: { view: FeedView; old: boolean }) => (
  <div class={old ? 'old' : undefined}>
    {view.cautions.length > 0 && (
      <article>
        <Blocks blocks={view.cautions} />
      </article>
    )}
    <article>
      <More title={old ? 'The whole report of before' : 'The whole report, with its proof'}>
        {() => <Blocks blocks={view.blocks} />}
      </More>
    </article>
  </div>
);
