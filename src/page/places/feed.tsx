import { remember, tune } from '../actions.js';
import { Bars } from '../parts/bars.js';
import { Blocks } from '../parts/blocks.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { Tuned } from '../state.js';
import type { FeedView } from '../work/feed.js';
import type { Place, PlaceProps } from './place.js';

/** The feed to give: what to measure, what the can then holds, and what other wishes would give. */
export const feedPlace: Place = {
  word: 'Feed',
  icon: 'M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z',
  View: FeedPlace,
};

const WAYS: [Tuned['way'], string][] = [
  ['given', 'This feed'],
  ['bare', 'Bare cheapest'],
  ['closest', 'Closest'],
];

function FeedPlace(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const { feed, tuned } = state.remembered;
  const bench = useAnswer(props, 'bench', 'bench', { texts });
  const answer = useAnswer(props, 'feed', 'feed', { texts, feed, tuned });
  const feeds = bench.answer?.feeds ?? [];
  return (
    <>
      <h2>Feed</h2>
      {feeds.length > 1 && (
        <label class="field">
          Which feed
          <select
            value={feed ?? ''}
            onChange={(event) => desk.change((s) => remember(s, 'feed', event.currentTarget.value || null))}
          >
            {feeds.map(({ name }) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      <fieldset class="ways">
        <legend>Which mix</legend>
        {WAYS.map(([way, word]) => (
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
      {answer.answer && <Shown view={answer.answer} />}
      {!answer.isCurrent || answer.status !== 'answered' ? (
        <Waiting answer={answer} desk={desk} channel="feed" />
      ) : null}
    </>
  );
}

function Shown({ view }: { view: FeedView }) {
  return (
    <article>
      <p class="answer">{view.title}</p>
      <Problems problems={view.warnings} />
      <ol class="doses">
        {view.doses.map(({ name, words }) => (
          <li key={name}>
            <b>{words}</b> {name}
          </li>
        ))}
      </ol>
      <Bars bars={view.bars} />
      <details>
        <summary>The whole report</summary>
        <Blocks blocks={view.blocks} />
      </details>
    </article>
  );
}
