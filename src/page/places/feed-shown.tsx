import { Bars } from '../parts/bars.js';
import { Blocks } from '../parts/blocks.js';
import { More } from '../parts/more.js';
import { Problems } from '../parts/problems.js';
import { EcOf, Sum } from '../parts/sum.js';
import type { Tuned } from '../state.js';
import type { FeedView } from '../work/feed.js';
import type { NearView } from '../work/near.js';

/** The answer, and what goes in. @param old true where a slider has moved since */
export const FeedAnswer = ({ view, old }: { view: FeedView; old: boolean }) => (
  <article class={old ? 'first old' : 'first'}>
    <p class={view.met ? 'answer' : 'answer off'}>{view.title}</p>
    <Problems problems={view.warnings} />
    {view.brief.length === 0 && view.doses.length > 0 && (
      <>
        <h3>
          {old ? 'Before the change' : 'What goes in'}, for {view.batch}
        </h3>
        <ol class="doses">
          {view.doses.map(({ name, words, sum }) => (
            <li key={name}>
              <More
                title={
                  <span>
                    <b>{words}</b> {name}
                  </span>
                }
              >
                {() => <Sum lines={sum} />}
              </More>
            </li>
          ))}
        </ol>
      </>
    )}
    <Blocks blocks={view.brief} />
  </article>
);

/** What the can then holds, element by element; while a slider moves, what the nearest mix would hold. */
export const FeedHolds = ({ view, near, old }: { view: FeedView; near: NearView | null; old: boolean }) => {
  const { bars, nitrogen } = near ?? view;
  return bars.length === 0 ? null : (
    <article class={old && !near ? 'old' : undefined}>
      <h3>{near ? 'The nearest mix, before rounding' : old ? 'What the can held before' : 'What the can holds'}</h3>
      <p class={near && !near.met ? 'bad' : 'quiet'}>
        {near
          ? `${near.said}.`
          : 'mg per litre. Each root runs from least to most; the notch is the aim, the drop this mix. Open a line for its sum.'}
      </p>
      <Bars bars={bars} />
      {nitrogen.length > 0 && <Nitrogen forms={nitrogen} />}
    </article>
  );
};

/** What the pen shows; while a slider moves, of the nearest mix. */
export const FeedPen = ({ view, near, old }: { view: FeedView; near: NearView | null; old: boolean }) => {
  const { ec } = near ?? view;
  return ec.length === 0 ? null : (
    <article class={old && !near ? 'old' : undefined}>
      <h3>{near ? 'What the pen would show' : old ? 'What the pen showed before' : 'What the pen shows'}</h3>
      <Blocks blocks={ec} />
      {!near && view.ecSum && <EcOf sum={view.ecSum} />}
      {!near && view.ecParts.length > 0 && (
        <More title="How it grows, step by step">{() => <Sum lines={view.ecParts} />}</More>
      )}
    </article>
  );
};

/** What a few cents buy. */
export const FeedBeside = ({ view, way, old }: { view: FeedView; way: Tuned['way']; old: boolean }) =>
  view.beside && way !== 'bare' ? <Beside beside={view.beside} money={view.money} old={old} /> : null;

/** The forms of nitrogen as parts of one root, each with its word and figure. */
const Nitrogen = ({ forms }: { forms: FeedView['nitrogen'] }) => (
  <>
    <h3>Its nitrogen by form</h3>
    <ul class="forms">
      {forms.map(({ name, share, words, sum }) => (
        <li key={name} class={name.split(' ')[0]}>
          <span class="part" style={{ width: `${100 * share}%` }} />
          {sum.length === 0 ? `${name} ${words}` : <More title={`${name} ${words}`}>{() => <Sum lines={sum} />}</More>}
        </li>
      ))}
    </ul>
  </>
);

const Beside = ({
  beside: { heads, rows, note },
  money,
  old,
}: {
  beside: NonNullable<FeedView['beside']>;
  money: FeedView['money'];
  old: boolean;
}) => (
  <article class={old ? 'old' : undefined}>
    <h3>{old ? 'What a few cents bought before' : 'What a few cents buy'}</h3>
    <Blocks
      blocks={[
        {
          kind: 'table',
          columns: heads.map((head, i) => ({ head, align: i === 0 ? 'left' : 'right' })),
          rows,
        },
      ]}
    />
    {note !== null && <p>{note}</p>}
    {money && (
      <More title="Where the money of this feed comes from">
        {() => (
          <>
            <Sum lines={money.lines} total={`${money.total} a can`} />
            <p class="quiet">{money.year}</p>
          </>
        )}
      </More>
    )}
  </article>
);
