import { useState } from 'preact/hooks';
import { remember, say, withText } from '../actions.js';
import { lastStep, readingsTo, steppedBack, withReading } from '../batch.js';
import { Blocks } from '../parts/blocks.js';
import { Field } from '../parts/field.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { BatchProps } from './sink-batch.js';
import { Judged } from './sink-judged.js';

/** All is in: whether the can may be fed, and the journal. */
export function BatchDone(props: BatchProps) {
  const { batch, change, desk } = props;
  const last = lastStep(batch);
  const [typed, setTyped] = useState(batch.readings[last] ?? '');
  const readings = readingsTo(batch, last);
  const { judgedBy, lines, pen } = batch.sheet;
  const expected = lines.find(({ step }) => step === last)?.reading;
  return (
    <>
      {judgedBy === null ? (
        <p>This mix is diluted for every feed, so there is no feed that its reading could be judged by.</p>
      ) : (
        <article class="read">
          <form
            class="row"
            onSubmit={(event) => {
              event.preventDefault();
              change((b) => withReading(b, last, typed));
            }}
          >
            <label class="field">
              What the pen shows in the full can
              {expected && `: it should show ${expected.range}, ${pen}`}
              <input
                type="text"
                inputMode="decimal"
                autocomplete="off"
                value={typed}
                onInput={(event) => setTyped(event.currentTarget.value)}
              />
            </label>
            <button type="submit">Judge it</button>
          </form>
        </article>
      )}
      {judgedBy !== null && (readings.length > 0 || batch.did.length > 0) && (
        <Judged {...props} readings={readings} isFull={batch.readings[last] !== undefined} />
      )}
      <article>
        <p>{batch.sheet.keeps}</p>
      </article>
      {judgedBy !== null && <IntoJournal {...props} readings={readings} />}
      <div class="row go">
        <button type="button" onClick={() => change(steppedBack)}>
          Back
        </button>
        <button
          type="button"
          class="main"
          onClick={() => desk.change((s) => say(remember(s, 'batch', null), 'Put away. The next can may begin.'))}
        >
          Put this sheet away
        </button>
      </div>
    </>
  );
}

/** The batch as an entry of the journal: shown before it is written. */
function IntoJournal(props: BatchProps & { readings: string[] }) {
  const [isOpen, setOpen] = useState(false);
  const { batch } = props;
  if (batch.enteredAt !== null)
    return (
      <article>
        <p class="good">✓ This can stands in the journal; what it took is off the stock.</p>
      </article>
    );
  return (
    <article>
      <h3>Journal</h3>
      {isOpen ? (
        <Entry {...props} />
      ) : (
        <button type="button" onClick={() => setOpen(true)}>
          Write it into the journal
        </button>
      )}
    </article>
  );
}

function Entry({ readings, ...props }: BatchProps & { readings: string[] }) {
  const { state, desk, batch, change } = props;
  const journal = state.kept.texts['journal.csv'];
  const { 'journal.csv': _, ...then } = batch.texts;
  const asked = {
    texts: journal === undefined ? then : { ...then, 'journal.csv': journal },
    wishes: {
      ...batch.sheet.judgedBy,
      ...(readings.length === 0 ? {} : { reading: readings }),
      ...(batch.pH.trim() === '' ? {} : { ph: batch.pH }),
      ...(batch.did.length === 0 ? {} : { note: batch.did.map(({ words }) => words).join('; ') }),
    },
    on: batch.begunAt.slice(0, 10),
  };
  const answer = useAnswer(props, 'record', 'record', asked);
  const view = answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  return (
    <>
      <Field name="pH, if you measured it" value={batch.pH} onSet={(pH) => change((b) => ({ ...b, pH }))} />
      {view === undefined ? (
        <Waiting answer={answer} desk={desk} channel="record" />
      ) : (
        <>
          <p class="answer">{view.title}</p>
          <Problems problems={view.warnings} />
          <Blocks blocks={view.blocks} />
          <div class="row">
            <button
              type="button"
              class="main"
              onClick={() => {
                const at = desk.now();
                desk.change((s) =>
                  withText(s, 'journal.csv', view.journal, at, 'The can was written into the journal'),
                );
                change((b) => ({ ...b, enteredAt: at }));
              }}
            >
              Write this entry
            </button>
          </div>
        </>
      )}
    </>
  );
}
