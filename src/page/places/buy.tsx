import { useEffect, useState } from 'preact/hooks';
import type { Problem } from '../../problem.js';
import { remember, say } from '../actions.js';
import { isEmptyShelf } from '../edit/shelf.js';
import { keyOf } from '../key.js';
import { Blocks } from '../parts/blocks.js';
import { EmptyShelf } from '../parts/empty-shelf.js';
import { Field } from '../parts/field.js';
import { More } from '../parts/more.js';
import { PickTable } from '../parts/pick-table.js';
import { Problems } from '../parts/problems.js';
import { Tool } from '../parts/tool.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { BuyWish } from '../state.js';
import type { BuyAsked, BuyOption, BuyView } from '../work/buy.js';
import type { Place, PlaceProps } from './place.js';

/** What to buy so that every feed can be mixed: the cheapest, the simplest, the nearest. */
export const buyPlace: Place = {
  word: 'Buy',
  icon: 'M5 8h14l-1.5 12h-11zM9 8V6a3 3 0 0 1 6 0v2',
  View: BuyPlace,
};

const HORIZONS: readonly [BuyWish['horizon'], string][] = [
  ['a quarter', 'a quarter'],
  ['half a year', 'half a year'],
  ['a year', 'a year'],
  ['other', 'so many weeks'],
];

function BuyPlace(props: PlaceProps) {
  const { state, desk } = props;
  const { market } = state;
  const { texts } = state.kept;
  const wish = state.remembered.buy;
  const bench = useAnswer(props, 'bench', 'bench', { texts });
  const asked = { texts, wish, market };
  const of = keyOf('buy', asked);
  const [askedFor, askFor] = useState('');
  const there = state.answers.buy;
  // a search takes long, so it begins when it is asked for; an answer that is there is shown again
  const isAsked = askedFor === of || there?.of === of;
  const set = (part: Partial<BuyWish>): void =>
    desk.change((s) => remember(s, 'buy', { ...s.remembered.buy, ...part }));
  // what was told of this very question: of a field beside the field, of the market beside the market
  const told = there?.of !== of ? [] : there.status === 'refused' ? there.problems : warningsOf(there.answer);
  const about = (...fields: string[]) => told.filter(({ where }) => fields.includes(where.field ?? ''));
  const ofMarket = market === null ? [] : told.filter(({ where }) => where.file === market.name);
  const isEmpty = isEmptyShelf(texts['shelf.csv']);
  return (
    <>
      <h2>Buy</h2>
      <p>Whole packs for all feeds of the bench together. What stands on the shelf is used first.</p>
      <fieldset class="ways">
        <legend>For how long</legend>
        {HORIZONS.map(([horizon, word]) => (
          <label key={horizon}>
            <input type="radio" name="horizon" checked={wish.horizon === horizon} onChange={() => set({ horizon })} />
            <span>{word}</span>
          </label>
        ))}
      </fieldset>
      <div class="pair">
        {wish.horizon === 'other' && (
          <Field
            name="How many weeks"
            value={wish.weeks}
            problems={about('--weeks')}
            onSet={(weeks) => set({ weeks })}
          />
        )}
        <Field
          name="New products, at most"
          value={wish.atMost}
          problems={about('--at-most')}
          onSet={(atMost) => set({ atMost })}
        />
        <Field
          name="Money, at most"
          value={wish.budget}
          problems={about('--budget')}
          onSet={(budget) => set({ budget })}
        />
      </div>
      <label class="tick">
        <input type="checkbox" checked={wish.one} onChange={(event) => set({ one: event.currentTarget.checked })} />
        One mix for all pots, diluted for each
      </label>
      <article class="spaced">
        <More
          title="What is for sale, what never, what in any case"
          isOpen={market !== null || wish.ban !== '' || wish.need !== ''}
        >
          {() => (
            <>
              <PickTable
                name="What is for sale where you are, as a CSV file"
                hint="With the columns of shelf.csv, a pack and its price in each row; pick it, or drop it onto the button. Without one: the salts and products of the catalog"
                as="market"
                picked={market}
                problems={ofMarket}
                onPick={(table) => desk.change((s) => ({ ...s, market: table }))}
              />
              <div class="pair">
                <Field
                  name="Never to be bought"
                  hint="By the id, one a line: urea"
                  lines={2}
                  value={wish.ban}
                  problems={about('--ban')}
                  onSet={(ban) => set({ ban })}
                />
                <Field
                  name="To be bought in any case"
                  hint="At least one pack of it; by the id, one a line"
                  lines={2}
                  value={wish.need}
                  problems={about('--need')}
                  onSet={(need) => set({ need })}
                />
              </div>
            </>
          )}
        </More>
      </article>
      {isEmpty ? (
        <EmptyShelf desk={desk} />
      ) : isAsked ? (
        <Sought {...props} asked={asked} beside={[...about(...FIELDS), ...ofMarket]} />
      ) : (
        <button type="button" class="main large" onClick={() => askFor(of)}>
          Look for what to buy
        </button>
      )}
      {!isEmpty && (
        <article class="spaced">
          <Tool
            {...props}
            tool="substitutes"
            title="What could stand in for a jar"
            beside={market}
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

/** Options that have a field here. */
const FIELDS = ['--weeks', '--at-most', '--budget', '--ban', '--need'];

const warningsOf = (answer: unknown): readonly Problem[] => (answer as BuyView | undefined)?.warnings ?? [];

function Sought({ asked, beside, ...props }: PlaceProps & { asked: BuyAsked; beside: readonly Problem[] }) {
  const { desk } = props;
  const answer = useAnswer(props, 'buy', 'buy', asked);
  const view = answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  const said = view?.title ?? '';
  useEffect(() => {
    if (said !== '') desk.change((s) => say(s, said));
  }, [said]);
  const problems = answer.problems.filter((one) => !beside.includes(one));
  return view === undefined ? (
    <>
      <Waiting answer={{ ...answer, problems }} desk={desk} channel="buy" />
      {answer.status === 'refused' && beside.length > 0 && <p class="bad">What is wrong stands beside its field.</p>}
    </>
  ) : (
    <Bought view={{ ...view, warnings: view.warnings.filter((one) => !beside.includes(one)) }} />
  );
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
