import { Bars } from '../parts/bars.js';
import { Blocks } from '../parts/blocks.js';
import { More } from '../parts/more.js';
import { Problems } from '../parts/problems.js';
import { EcOf, Sum } from '../parts/sum.js';
import type { Tuned } from '../state.js';
import type { FeedView } from '../work/feed.js';

/** The answer, and what goes in. */
export const FeedAnswer = ({ view }: { view: FeedView }) => (
  <article class="first">
    <p class={view.met ? 'answer' : 'answer off'}>{view.title}</p>
    <Problems problems={view.warnings} />
    {view.brief.length === 0 && view.doses.length > 0 && (
      <>
        <h3>What goes in, for {view.batch}</h3>
        <ol class="doses">
          {view.doses.map(({ name, words, sum }) => (
            <li key={name}>
              <details>
                <summary>
                  <span>
                    <b>{words}</b> {name}
                  </span>
                </summary>
                <Sum lines={sum} />
              </details>
            </li>
          ))}
        </ol>
      </>
    )}
    <Blocks blocks={view.brief} />
  </article>
);

/** What the can then holds, element by element. */
export const FeedHolds = ({ view }: { view: FeedView }) =>
  view.bars.length === 0 ? null : (
    <article>
      <h3>What the can holds</h3>
      <p class="quiet">
        mg per litre. Each root runs from least to most; the notch is the aim, the drop this mix. Open a line for its
        sum.
      </p>
      <Bars bars={view.bars} />
      {view.nitrogen.length > 0 && <Nitrogen forms={view.nitrogen} />}
    </article>
  );

/** What the pen shows, and what a few cents buy. */
export const FeedBeside = ({ view, way }: { view: FeedView; way: Tuned['way'] }) => (
  <>
    {view.ec.length > 0 && (
      <article>
        <h3>What the pen shows</h3>
        <Blocks blocks={view.ec} />
        {view.ecSum && <EcOf sum={view.ecSum} />}
        {view.ecParts.length > 0 && (
          <More title="How it grows, step by step">{() => <Sum lines={view.ecParts} />}</More>
        )}
      </article>
    )}
    {view.beside && way !== 'bare' && <Beside beside={view.beside} />}
  </>
);

/** The forms of nitrogen as parts of one root, each with its word and figure. */
const Nitrogen = ({ forms }: { forms: FeedView['nitrogen'] }) => (
  <>
    <h3>Its nitrogen by form</h3>
    <ul class="forms">
      {forms.map(({ name, share, words, sum }) => (
        <li key={name} class={name.split(' ')[0]}>
          <span class="part" style={{ width: `${100 * share}%` }} />
          {sum.length === 0 ? (
            `${name} ${words}`
          ) : (
            <details>
              <summary>
                {name} {words}
              </summary>
              <Sum lines={sum} />
            </details>
          )}
        </li>
      ))}
    </ul>
  </>
);

const Beside = ({ beside: { heads, rows, note } }: { beside: NonNullable<FeedView['beside']> }) => (
  <article>
    <h3>What a few cents buy</h3>
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
  </article>
);
