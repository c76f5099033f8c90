import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { remember, say } from '../actions.js';
import { type BatchInHand, lastStep, readingsTo, stepped, steppedBack, withReading } from '../batch.js';
import { Blocks } from '../parts/blocks.js';
import { More } from '../parts/more.js';
import { Sum } from '../parts/sum.js';
import { useAwake } from '../parts/use-awake.js';
import type { SinkView } from '../sheet-view.js';
import type { PlaceProps } from './place.js';
import { BatchDone } from './sink-done.js';
import { Happened } from './sink-happened.js';
import { Judged } from './sink-judged.js';

export type BatchProps = PlaceProps & {
  batch: BatchInHand;
  change: (next: (batch: BatchInHand) => BatchInHand) => void;
};
type Line = SinkView['lines'][number];

/** A batch in hand: the step to do now, or what is told of the can when all is in. */
export function BatchPlace({ state, desk }: PlaceProps) {
  const batch = state.remembered.batch!;
  const { lines } = batch.sheet;
  const line = lines[batch.at];
  const isAwake = useAwake(line !== undefined);
  const head = useRef<HTMLHeadingElement>(null);
  const shown = useRef(batch.at);
  const change: BatchProps['change'] = (next) =>
    desk.change((s) => (s.remembered.batch === null ? s : remember(s, 'batch', next(s.remembered.batch))));
  useLayoutEffect(() => {
    // each step is read from its top; the first one is not jumped to on a visit
    if (shown.current !== batch.at) {
      head.current?.focus({ preventScroll: true });
      window.scrollTo(0, 0);
    }
    shown.current = batch.at;
  }, [batch.at]);
  const props = { state, desk, batch, change };
  return (
    <div class="sink">
      <h2 ref={head} tabIndex={-1}>
        {line === undefined ? 'The can is done' : stepName(line, batch)}
      </h2>
      <p class="quiet">
        {batch.sheet.title}, {batch.sheet.litres}
        {isAwake && '; the screen stays on'}
      </p>
      <ol class="way" aria-hidden="true">
        {lines.map((_, i) => (
          <li key={i} class={i < batch.at ? 'done' : i === batch.at ? 'now' : undefined} />
        ))}
      </ol>
      {line === undefined ? <BatchDone {...props} /> : <OneStep key={batch.at} {...props} line={line} />}
      {batch.at === 0 && batch.sheet.cautions.length > 0 && (
        <article>
          <details>
            <summary>Take care</summary>
            <Blocks blocks={[{ kind: 'cautions', items: batch.sheet.cautions }]} />
          </details>
        </article>
      )}
      {batch.sheet.judgedBy !== null && <Happened {...props} />}
      {line !== undefined && <PutAway {...props} />}
    </div>
  );
}

const stepName = ({ step }: Line, { sheet }: BatchInHand): string =>
  step === null ? 'Fill up' : `Step ${step} of ${Math.max(...sheet.lines.map((line) => line.step ?? 0))}`;

/** One thing to do: the amount as large as it can be, what it is of, what the pen then shows. */
function OneStep({ line, ...props }: BatchProps & { line: Line }) {
  const { batch, change, desk } = props;
  const { step, reading } = line;
  const kept = step === null ? '' : (batch.readings[step] ?? '');
  const [typed, setTyped] = useState(kept);
  const size = line.amount.length <= 8 ? 'short' : line.amount.length <= 18 ? 'middling' : 'long';
  const judge = (): void => change((b) => withReading(b, step!, typed));
  const next = (): void => {
    const at = desk.now();
    change((b) => stepped(reading === null ? b : withReading(b, step!, typed), at));
  };
  const told = readingsTo(batch, step ?? batch.at + 1);
  const isRead = kept !== '';
  return (
    <>
      <article class="step">
        <p class={`amount ${size}`}>{line.amount}</p>
        <p class="what">{line.what}</p>
        {[line.others, line.how, line.effect]
          .filter((text) => text !== '')
          .map((text) => (
            <p key={text}>{text}</p>
          ))}
        {batch.at === 0 &&
          batch.sheet.alert.map((text) => (
            <p key={text} class="bad">
              {text}
            </p>
          ))}
      </article>
      {reading !== null && (
        <article class="read">
          <p class="expect">
            The pen then shows <b>{reading.pen}</b> {batch.sheet.pen}.{' '}
            <span class="quiet">
              Good cans: <span class="range">{reading.range}</span>.
              {batch.sheet.twoScales && ` In mS/cm: ${reading.ec}; good cans ${reading.ecRange}.`}
            </span>
          </p>
          {line.sum && <StepSumOf sum={line.sum} />}
          {batch.sheet.judgedBy !== null && (
            <form
              class="row"
              onSubmit={(event) => {
                event.preventDefault();
                judge();
              }}
            >
              <label class="field">
                What it shows, if you read it
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
          )}
        </article>
      )}
      {batch.sheet.judgedBy !== null && (told.length > 0 || batch.did.length > 0) && (
        <Judged
          {...props}
          readings={told}
          isFull={step === lastStep(batch)}
          onlyIfOff={!isRead && batch.did.length === 0}
        />
      )}
      <div class="row go">
        <button type="button" disabled={batch.at === 0} onClick={() => change(steppedBack)}>
          Back
        </button>
        <button type="button" class="main" onClick={next}>
          Done
        </button>
      </div>
    </>
  );
}

/** What stands behind the figures of the step. */
const StepSumOf = ({ sum }: { sum: NonNullable<Line['sum']> }) => (
  <More title="Where these figures come from">
    {() => (
      <>
        <Sum lines={sum.inCan} />
        <Sum lines={sum.ec.lines} total={sum.ec.total} />
        <p class="quiet">{sum.ec.note}</p>
      </>
    )}
  </More>
);

/** Out of a batch that is not finished, not by a slip. */
function PutAway({ desk }: BatchProps) {
  const [isAsked, setAsked] = useState(false);
  if (!isAsked)
    return (
      <button type="button" class="away" onClick={() => setAsked(true)}>
        Give this can up
      </button>
    );
  return (
    <article>
      <p>The steps and readings of this can are then forgotten.</p>
      <div class="row">
        <button
          type="button"
          onClick={() => desk.change((s) => say(remember(s, 'batch', null), 'The can was given up.'))}
        >
          Forget them
        </button>
        <button type="button" class="main" onClick={() => setAsked(false)}>
          Keep on mixing
        </button>
      </div>
    </article>
  );
}
