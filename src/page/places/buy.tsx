import { useState } from 'preact/hooks';
import { remember } from '../actions.js';
import { isEmptyShelf } from '../edit/shelf.js';
import { keyOf } from '../key.js';
import { Blocks } from '../parts/blocks.js';
import { EmptyShelf } from '../parts/empty-shelf.js';
import { Field } from '../parts/field.js';
import { Problems } from '../parts/problems.js';
import { Tool } from '../parts/tool.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { BuyWish } from '../state.js';
import type { BuyOption, BuyView } from '../work/buy.js';
import type { Place, PlaceProps } from './place.js';

/** What to buy so that every feed can be mixed: the cheapest, the simplest, the nearest. */
export const buyPlace: Place = {
  word: 'Buy',
  icon: 'M5 8h14l-1.5 12h-11zM9 8V6a3 3 0 0 1 6 0v2',
  View: BuyPlace,
};

const HORIZONS: readonly BuyWish['horizon'][] = ['a quarter', 'half a year', 'a year'];

function BuyPlace(props: PlaceProps) {
  const { state, desk } = props;
  const wish = state.remembered.buy;
  const bench = useAnswer(props, 'bench', 'bench', { texts: state.kept.texts });
  const asked = { texts: state.kept.texts, wish };
  const of = keyOf('buy', asked);
  const [askedFor, askFor] = useState('');
  const there = state.answers.buy;
  // a search takes long, so it begins when it is asked for; an answer that is there is shown again
  const isAsked = askedFor === of || there?.of === of;
  const set = (part: Partial<BuyWish>): void =>
    desk.change((s) => remember(s, 'buy', { ...s.remembered.buy, ...part }));
  return (
    <>
      <h2>Buy</h2>
      <p>Whole packs for all feeds of the bench together. What stands on the shelf is used first.</p>
      <fieldset class="ways">
        <legend>For how long</legend>
        {HORIZONS.map((horizon) => (
          <label key={horizon}>
            <input type="radio" name="horizon" checked={wish.horizon === horizon} onChange={() => set({ horizon })} />
            <span>{horizon}</span>
          </label>
        ))}
      </fieldset>
      <div class="pair">
        <Field name="New products, at most" value={wish.atMost} onSet={(atMost) => set({ atMost })} />
        <Field name="Money, at most" value={wish.budget} onSet={(budget) => set({ budget })} />
      </div>
      <label class="tick">
        <input type="checkbox" checked={wish.one} onChange={(event) => set({ one: event.currentTarget.checked })} />
        One mix for all pots, diluted for each
      </label>
      {isEmptyShelf(state.kept.texts['shelf.csv']) ? (
        <EmptyShelf desk={desk} />
      ) : isAsked ? (
        <Sought {...props} asked={asked} />
      ) : (
        <button type="button" class="main large" onClick={() => askFor(of)}>
          Look for what to buy
        </button>
      )}
      {!isEmptyShelf(state.kept.texts['shelf.csv']) && (
        <article class="spaced">
          <Tool
            {...props}
            tool="substitutes"
            title="What could stand in for a jar"
            fields={[
              {
                key: 'insteadOf',
                name: 'In place of',
                usual: bench.answer?.products[0]?.id ?? '',
                choices: bench.answer?.products ?? [],
              },
            ]}
            button="Look for what could stand in"
            wishes={(words) => words}
          />
        </article>
      )}
    </>
  );
}

function Sought({
  asked,
  ...props
}: PlaceProps & { asked: { texts: PlaceProps['state']['kept']['texts']; wish: BuyWish } }) {
  const answer = useAnswer(props, 'buy', 'buy', asked);
  const view = answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  return view === undefined ? <Waiting answer={answer} desk={props.desk} channel="buy" /> : <Bought view={view} />;
}

const Bought = ({ view }: { view: BuyView }) => (
  <>
    <article class="first">
      <p class={view.met ? 'answer' : 'answer off'}>{view.title}.</p>
      <Problems problems={view.warnings} />
      {view.options.length === 0 && <Blocks blocks={view.blocks} />}
    </article>
    <div class="options">
      {view.options.map((option) => (
        <Option key={option.ways} option={option} />
      ))}
    </div>
    {view.labels.length > 0 && (
      <article>
        <Blocks blocks={view.labels} />
      </article>
    )}
    {view.options.length > 0 && (
      <article>
        <details>
          <summary>The whole report, with doses and proof</summary>
          <Blocks blocks={view.blocks} />
        </details>
      </article>
    )}
    {view.options.length > 0 && view.cautions.length > 0 && (
      <article>
        <Blocks blocks={view.cautions} />
      </article>
    )}
  </>
);

const Option = ({ option }: { option: BuyOption }) => (
  <article>
    <h3>{option.ways}</h3>
    <p class="price">
      <b>{option.money}</b> {option.later !== '' && <span class="quiet">{option.later}</span>}
    </p>
    {option.packs.length === 0 ? (
      <p>Nothing to buy: the shelf suffices.</p>
    ) : (
      <ul class="list">
        {option.packs.map((pack) => (
          <li key={pack}>{pack}</li>
        ))}
      </ul>
    )}
    {option.missed !== '' && <p class="bad">{option.missed}.</p>}
    <p class="quiet">{option.feeds}.</p>
  </article>
);
