import { useState } from 'preact/hooks';
import { remember } from '../actions.js';
import { isEmptyShelf } from '../edit/shelf.js';
import { download } from '../exchange.js';
import { Blocks } from '../parts/blocks.js';
import { EmptyShelf } from '../parts/empty-shelf.js';
import { Field } from '../parts/field.js';
import { Paper } from '../parts/paper.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { YearWish } from '../state.js';
import type { SeasonView } from '../work/season.js';
import type { Place, PlaceProps } from './place.js';
import { JournalShown } from './year-journal.js';

/** The year: what is fed when and what to order, the journal, what is left, what it cost. */
export const yearPlace: Place = {
  word: 'Year',
  icon: 'M4 6h16v14H4zM4 10h16M8 3v4M16 3v4M8 14h3M8 17h6',
  View: YearPlace,
};

const LOOKS: readonly [YearWish['look'], string][] = [
  ['season', 'Season'],
  ['journal', 'Journal'],
  ['stock', 'Stock'],
  ['pots', 'Pots'],
  ['cost', 'Cost'],
];

function YearPlace(props: PlaceProps) {
  const { state, desk } = props;
  const { year } = state.remembered;
  const set = (part: Partial<YearWish>): void =>
    desk.change((s) => remember(s, 'year', { ...s.remembered.year, ...part }));
  return (
    <>
      <h2>Year</h2>
      <fieldset class="ways">
        <legend>What to look at</legend>
        {LOOKS.map(([look, word]) => (
          <label key={look}>
            <input type="radio" name="look" checked={year.look === look} onChange={() => set({ look })} />
            <span>{word}</span>
          </label>
        ))}
      </fieldset>
      {year.look === 'season' && isEmptyShelf(state.kept.texts['shelf.csv']) ? (
        <EmptyShelf desk={desk} />
      ) : year.look === 'season' ? (
        <Season {...props} set={set} />
      ) : (
        <JournalShown key={year.look} {...props} look={year.look} />
      )}
    </>
  );
}

function Season({ set, ...props }: PlaceProps & { set: (part: Partial<YearWish>) => void }) {
  const { state, desk } = props;
  const { from, hemisphere, buy, lead } = state.remembered.year;
  const today = desk.now().slice(0, 10);
  const answer = useAnswer(props, 'season', 'season', {
    texts: state.kept.texts,
    from: from === '' ? today : from,
    hemisphere,
    buy,
    lead,
    market: buy ? state.market : null,
  });
  const ofLead = answer.status === 'refused' ? answer.problems.filter(({ where }) => where.field === '--lead') : [];
  const problems = answer.problems.filter((one) => !ofLead.includes(one));
  return (
    <>
      <div class="pair">
        <label class="field">
          From
          <input
            type="date"
            value={from === '' ? today : from}
            onChange={(event) => set({ from: event.currentTarget.value })}
          />
        </label>
        <label class="field">
          Which half of the world
          <select
            value={hemisphere}
            onChange={(event) => set({ hemisphere: event.currentTarget.value as YearWish['hemisphere'] })}
          >
            <option value="">as the bench says</option>
            <option value="north">north</option>
            <option value="south">south</option>
          </select>
        </label>
        <Field
          name="How long a parcel takes"
          hint="Such as 10 days; empty: 2 weeks"
          value={lead}
          problems={ofLead}
          onSet={(value) => set({ lead: value })}
        />
      </div>
      <label class="tick">
        <input type="checkbox" checked={buy} onChange={(event) => set({ buy: event.currentTarget.checked })} />
        First buy what the year takes
        {state.market && `; ${state.market.name} says what is for sale`}
      </label>
      {answer.status !== 'answered' && <Waiting answer={{ ...answer, problems }} desk={desk} channel="season" />}
      {answer.answer && answer.status !== 'refused' && (
        <div class={answer.isCurrent ? undefined : 'old'} aria-busy={!answer.isCurrent}>
          <SeasonShown view={answer.answer} />
        </div>
      )}
    </>
  );
}

function SeasonShown({ view }: { view: SeasonView }) {
  const [isPrinted, setPrinted] = useState(false);
  return (
    <>
      <article class="first">
        <p class={view.met ? 'answer' : 'answer off'}>{view.title}</p>
        <Problems problems={view.warnings} />
        <div class="row">
          <button
            type="button"
            class="main"
            onClick={() => download('season.ics', new TextEncoder().encode(view.calendar))}
          >
            Its dates for a calendar
          </button>
          <button type="button" aria-pressed={isPrinted} onClick={() => setPrinted(!isPrinted)}>
            On paper
          </button>
        </div>
        {isPrinted && <Paper name="season.html" title="The year on paper" html={view.page} />}
      </article>
      <article>
        <Blocks blocks={view.blocks.filter(({ full }) => !full)} />
        <details>
          <summary>Month by month, week by week, and how jars are kept</summary>
          <Blocks blocks={view.blocks.filter(({ full }) => full)} />
        </details>
      </article>
    </>
  );
}
