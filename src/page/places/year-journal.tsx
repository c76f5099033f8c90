import { useState } from 'preact/hooks';
import { Blocks } from '../parts/blocks.js';
import { Field } from '../parts/field.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { BenchTexts } from '../state.js';
import type { JournalLook } from '../work/journal.js';
import type { RecordAsked } from '../work/record.js';
import type { PlaceProps } from './place.js';
import { Entry } from './year-entry.js';
import { WritePot } from './year-pots.js';
import { WriteStandard } from './year-standard.js';

/** A view of the journal, and what can be written into it besides cans. */
export function JournalShown({ look, ...props }: PlaceProps & { look: JournalLook }) {
  const { texts } = props.state.kept;
  return (
    <>
      {texts['journal.csv'] === undefined ? (
        <article>
          <p>
            Nothing stands in the journal yet. A can that was mixed is written into it at the end of its steps, in the
            place of the sink; jars are bought and counted, and pots are read, here.
          </p>
        </article>
      ) : (
        <Look {...props} look={look} texts={texts} />
      )}
      {look === 'pots' && <WritePot {...props} />}
      {look === 'journal' && <WriteStandard {...props} />}
      {(look === 'journal' || look === 'stock') && <Write {...props} look={look} />}
    </>
  );
}

function Look({ look, texts, ...props }: PlaceProps & { look: JournalLook; texts: BenchTexts }) {
  const [all, setAll] = useState(false);
  const answer = useAnswer(props, 'journal', 'journal', { texts, look, ...(all ? { all } : {}) });
  const view = answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  if (view === undefined) return <Waiting answer={answer} desk={props.desk} channel="journal" />;
  return (
    <article class="first">
      <p class="answer">{view.title}</p>
      <Problems problems={view.warnings} />
      {view.picture !== null && (
        <img
          class="picture"
          alt="Readings over time; every figure stands in the table."
          src={`data:image/svg+xml,${encodeURIComponent(view.picture)}`}
        />
      )}
      <Blocks blocks={view.blocks} />
      {look === 'journal' && (
        <button type="button" aria-pressed={all} onClick={() => setAll(!all)}>
          Every entry
        </button>
      )}
    </article>
  );
}

const SORTS = {
  stock: [
    ['bought', 'Bought', 'Such as 1 kg potassium-nitrate'],
    ['counted', 'Counted', 'What a jar holds now, such as 320 g potassium-nitrate'],
  ],
  journal: [['undo', 'Undo an entry', 'Its number; nothing is deleted, it no longer counts']],
} as const;

/** An entry besides a can: shown before it is written. */
function Write({ look, ...props }: PlaceProps & { look: 'journal' | 'stock' }) {
  const [sort, setSort] = useState<string>(SORTS[look][0][0]);
  const [typed, setTyped] = useState('');
  const [paid, setPaid] = useState('');
  const [asked, setAsked] = useState<Omit<RecordAsked, 'texts'> | null>(null);
  const { state, desk } = props;
  const [, , hint] = SORTS[look].find(([name]) => name === sort)!;
  return (
    <article>
      <h3>{look === 'stock' ? 'Write down jars' : 'A mistake?'}</h3>
      {look === 'stock' && (
        <fieldset class="ways">
          <legend>What happened</legend>
          {SORTS.stock.map(([name, word]) => (
            <label key={name}>
              <input type="radio" name="sort" checked={sort === name} onChange={() => setSort(name)} />
              <span>{word}</span>
            </label>
          ))}
        </fieldset>
      )}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const on = desk.now().slice(0, 10);
          if (typed.trim() === '') setAsked(null);
          else if (sort === 'undo') setAsked({ wishes: {}, undo: typed, on });
          else {
            const isPaid = sort === 'bought' && paid.trim() !== '';
            setAsked({ wishes: { [sort]: [typed], ...(isPaid ? { paid } : {}) }, on });
          }
        }}
      >
        <label class="field">
          {hint}
          <input
            type="text"
            autocomplete="off"
            value={typed}
            onInput={(event) => setTyped(event.currentTarget.value)}
          />
        </label>
        {sort === 'bought' && <Field name="What was paid for it, if you like" value={paid} onSet={setPaid} />}
        <button type="submit">Look at the entry</button>
      </form>
      {asked !== null && (
        <Entry
          {...props}
          asked={{ texts: state.kept.texts, ...asked }}
          onWritten={() => {
            setAsked(null);
            setTyped('');
            setPaid('');
          }}
        />
      )}
    </article>
  );
}
