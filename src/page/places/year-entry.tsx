import { withText } from '../actions.js';
import { Blocks } from '../parts/blocks.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { RecordAsked } from '../work/record.js';
import type { PlaceProps } from './place.js';

/** An entry of the journal as it would be written, and the button that writes it. @param beside fields that tell their problems themselves */
export function Entry({
  asked,
  beside = [],
  channel = 'record',
  onWritten,
  ...props
}: PlaceProps & { asked: RecordAsked; beside?: readonly string[]; channel?: string; onWritten: () => void }) {
  const { desk } = props;
  const answer = useAnswer(props, channel, 'record', asked);
  const view = answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  if (view === undefined) {
    const problems = answer.problems.filter(({ where }) => !beside.includes(where.field ?? ''));
    return <Waiting answer={{ ...answer, problems }} desk={desk} channel={channel} />;
  }
  return (
    <div aria-live="polite">
      <p class="answer">{view.title}</p>
      <Problems problems={view.warnings} />
      <Blocks blocks={view.blocks} />
      <button
        type="button"
        class="main"
        onClick={() => {
          const at = desk.now();
          desk.change((s) => withText(s, 'journal.csv', view.journal, at, 'An entry was written into the journal'));
          onWritten();
        }}
      >
        Write this entry
      </button>
    </div>
  );
}
