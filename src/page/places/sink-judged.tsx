import { useEffect, useRef } from 'preact/hooks';
import { say } from '../actions.js';
import { didOf } from '../batch.js';
import { Blocks } from '../parts/blocks.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { JudgeView } from '../work/judge.js';
import type { BatchProps } from './sink-batch.js';

/** What the readings so far say: the answer in one sentence, then what to do. */
export function Judged({
  readings,
  isFull,
  onlyIfOff = false,
  ...props
}: BatchProps & { readings: string[]; isFull: boolean; onlyIfOff?: boolean }) {
  const { batch, desk } = props;
  const asked = { texts: batch.texts, judgedBy: batch.sheet.judgedBy!, readings, did: didOf(batch), isFull };
  const answer = useAnswer(props, 'judge', 'judge', asked);
  const view = answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  const said = view?.says ?? '';
  const article = useRef<HTMLElement>(null);
  useEffect(() => {
    if (said === '' || onlyIfOff) return;
    desk.change((s) => say(s, said));
    article.current?.scrollIntoView({ block: 'nearest' });
  }, [said, onlyIfOff]);
  const refused = answer.status === 'refused' ? (answer.problems[0]?.fix ?? '') : '';
  useEffect(() => {
    if (refused !== '') desk.change((s) => say(s, `Not understood. ${refused}`));
  }, [refused]);
  if (view === undefined)
    return onlyIfOff && answer.status === 'asking' ? null : <Waiting answer={answer} desk={desk} channel="judge" />;
  if (onlyIfOff && view.tone !== 'bad') return null;
  return (
    <article ref={article} class={`judged ${view.tone}`} data-of={[didOf(batch), ...readings].join(' ')}>
      <p class="answer">
        <span aria-hidden="true">{MARKS[view.tone]} </span>
        <span class="says">{view.says}</span>
      </p>
      {view.todo.length > 0 && <List lines={view.todo} />}
      {view.later.length > 0 && (
        <>
          <p>If you go on as planned, this mends the full can:</p>
          <List lines={view.later} />
        </>
      )}
      <Problems problems={view.warnings} />
      <details>
        <summary>Why</summary>
        <Blocks blocks={view.blocks} />
      </details>
    </article>
  );
}

/** The tone without colour. */
const MARKS: Readonly<Record<JudgeView['tone'], string>> = { good: '✓', open: '!', bad: '✕' };

const List = ({ lines }: { lines: readonly string[] }) => (
  <ol class="todo">
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ol>
);
