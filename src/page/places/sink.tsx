import { useEffect, useState } from 'preact/hooks';
import { remember, say } from '../actions.js';
import { begun } from '../batch.js';
import { isEmptyShelf } from '../edit/shelf.js';
import { Blocks } from '../parts/blocks.js';
import { EmptyShelf } from '../parts/empty-shelf.js';
import { Field } from '../parts/field.js';
import { Paper } from '../parts/paper.js';
import { Problems } from '../parts/problems.js';
import { Tool } from '../parts/tool.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import { WhichFeed } from '../parts/which-feed.js';
import type { SinkView } from '../sheet-view.js';
import type { Place, PlaceProps } from './place.js';
import { BatchPlace } from './sink-batch.js';

/** At the sink: one step after the other, each with the reading to expect. */
export const sinkPlace: Place = {
  word: 'Sink',
  icon: 'M4 12h16v2a6 6 0 0 1-6 6h-4a6 6 0 0 1-6-6zM12 12V6a2 2 0 0 1 4 0v1',
  View: (props) => (props.state.remembered.batch === null ? <Before {...props} /> : <BatchPlace {...props} />),
};

/** Before anything is mixed: which feed, how much, what will go in. */
function Before(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const { feed, tuned, mix, by } = state.remembered;
  const bench = useAnswer(props, 'bench', 'bench', { texts });
  const asked = { texts, feed, tuned, mix, by };
  const answer = useAnswer(props, 'sink', 'sink', asked);
  const isEmpty = isEmptyShelf(texts['shelf.csv']);
  const feeds = bench.answer?.feeds ?? [];
  const view = answer.isCurrent ? answer.answer : undefined;
  const said = view === undefined ? '' : `${view.title}${view.litres === '' ? '' : `, ${view.litres}`}`;
  useEffect(() => {
    if (said !== '') desk.change((s) => say(s, said));
  }, [said]);
  return (
    <>
      <h2>Sink</h2>
      {tuned.way !== 'one' && <WhichFeed desk={desk} feeds={feeds} feed={feed} />}
      <Field
        name="How much to mix, such as 4 L or 1 US gal; empty: as much as the bench says"
        value={mix}
        onSet={(value) => desk.change((s) => remember(s, 'mix', value))}
      />
      <label class="tick">
        <input
          type="checkbox"
          checked={by === 'pen'}
          onChange={(event) => desk.change((s) => remember(s, 'by', event.currentTarget.checked ? 'pen' : ''))}
        />
        Dose by the pen: add until it shows a figure
      </label>
      {isEmpty ? (
        <EmptyShelf desk={desk} />
      ) : (
        answer.status !== 'answered' && <Waiting answer={answer} desk={desk} channel="sink" />
      )}
      {answer.answer && !isEmpty && answer.status !== 'refused' && (
        <div class={answer.isCurrent ? undefined : 'old'} aria-busy={!answer.isCurrent}>
          <Sheet view={answer.answer} />
          {answer.isCurrent && answer.answer.lines.length > 0 && (
            <div class="row">
              <button
                type="button"
                class="main large"
                onClick={() => desk.change((s) => remember(s, 'batch', begun(texts, answer.answer!, desk.now())))}
              >
                Start mixing {answer.answer.litres}
              </button>
            </div>
          )}
          <Care view={answer.answer} />
          {answer.isCurrent && answer.answer.lines.length > 0 && <ToPrint {...props} asked={asked} />}
          {tuned.way !== 'one' && (
            <article>
              <Tool
                {...props}
                tool="concentrate"
                title="As stock in bottles"
                fields={[
                  { key: 'ratio', name: 'How strong, such as 1:100; empty: the strongest that holds, up to that' },
                  { key: 'jug', name: 'In jugs of', usual: '500 mL' },
                ]}
                button="Work out the stock"
                wishes={({ ratio, jug }) => ({
                  feed: feed ?? feeds[0]?.name,
                  ...(ratio?.trim() ? { ratio } : {}),
                  ...(jug?.trim() ? { jug } : {}),
                })}
              />
            </article>
          )}
        </div>
      )}
    </>
  );
}

/** The whole sheet at a glance. */
const Sheet = ({ view }: { view: SinkView }) => (
  <article class="first">
    <p class="answer">{view.title}</p>
    <p class="quiet">{view.plants}</p>
    <Problems problems={view.warnings} />
    {view.alert.map((line) => (
      <p key={line} class="bad">
        {line}
      </p>
    ))}
    {view.lines.length > 0 && (
      <ol class="doses">
        {view.lines.map(({ amount, what }, i) => (
          <li key={i}>
            <b>{amount}</b> {what}
          </li>
        ))}
      </ol>
    )}
    {view.keeps !== '' && <p class="quiet">{view.keeps}</p>}
  </article>
);

const Care = ({ view: { cautions, notes } }: { view: SinkView }) => (
  <>
    {notes.length > 0 && (
      <article>
        <Blocks
          blocks={[
            { kind: 'heading', text: 'Notes' },
            { kind: 'list', items: notes },
          ]}
        />
      </article>
    )}
    {cautions.length > 0 && (
      <article>
        <Blocks
          blocks={[
            { kind: 'heading', text: 'Take care' },
            { kind: 'cautions', items: cautions },
          ]}
        />
      </article>
    )}
  </>
);

/** The sheet for the wall and the label for the jug, as the command line prints them. */
function ToPrint(props: PlaceProps & { asked: Parameters<typeof PrintOf>[0]['asked'] }) {
  const [what, setWhat] = useState<'sheet' | 'label' | null>(null);
  return (
    <article>
      <h3>On paper</h3>
      <div class="row">
        <button
          type="button"
          aria-pressed={what === 'sheet'}
          onClick={() => setWhat(what === 'sheet' ? null : 'sheet')}
        >
          The sheet
        </button>
        <button
          type="button"
          aria-pressed={what === 'label'}
          onClick={() => setWhat(what === 'label' ? null : 'label')}
        >
          The label for the jug
        </button>
      </div>
      {what !== null && <PrintOf key={what} {...props} what={what} />}
    </article>
  );
}

function PrintOf({
  asked,
  what,
  ...props
}: PlaceProps & {
  asked: { texts: PlaceProps['state']['kept']['texts'] } & Pick<
    PlaceProps['state']['remembered'],
    'feed' | 'tuned' | 'mix' | 'by'
  >;
  what: 'sheet' | 'label';
}) {
  const answer = useAnswer(props, 'print', 'print', { ...asked, what });
  const view = answer.isCurrent ? answer.answer : undefined;
  if (view === undefined || answer.status !== 'answered')
    return <Waiting answer={answer} desk={props.desk} channel="print" />;
  if (view.html === null) return <p>There is nothing to mix, so there is no label.</p>;
  return <Paper name={view.name} title={what === 'sheet' ? 'The mixing sheet' : 'The label'} html={view.html} />;
}
