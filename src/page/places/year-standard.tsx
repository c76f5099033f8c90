import { useState } from 'preact/hooks';
import { Field } from '../parts/field.js';
import { useAnswer } from '../parts/use-answer.js';
import type { RecordAsked } from '../work/record.js';
import type { PlaceProps } from './place.js';
import { Entry } from './year-entry.js';

const CHANNEL = 'record standard';
const EMPTY = { standard: '', reads: '' };

/** The pen in its standard, as an entry: a drift of the pen is then told from one of the jars. */
export function WriteStandard(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const [words, setWords] = useState(EMPTY);
  const [asked, setAsked] = useState<Omit<RecordAsked, 'texts'> | null>(null);
  const answer = useAnswer(props, CHANNEL, 'record', asked && { texts, ...asked });
  const field = (key: keyof typeof EMPTY, name: string, hint: string) => (
    <Field
      name={name}
      hint={hint}
      value={words[key]}
      problems={
        asked !== null && answer.status === 'refused'
          ? answer.problems.filter(({ where }) => where.field === `--${key}`)
          : []
      }
      onSet={(value) => setWords((before) => ({ ...before, [key]: value }))}
    />
  );
  return (
    <article>
      <h3>The pen in its standard</h3>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          setAsked({ wishes: words, on: desk.now().slice(0, 10) });
        }}
      >
        <div class="pair">
          {field('standard', 'What the bottle of the standard says', 'Such as 1413 µS')}
          {field('reads', 'What the pen shows of it', 'Such as 1.35, or 690 ppm')}
        </div>
        <button type="submit">Look at this check</button>
      </form>
      {asked !== null && (
        <Entry
          {...props}
          asked={{ texts, ...asked }}
          beside={['--standard', '--reads']}
          channel={CHANNEL}
          onWritten={() => {
            setAsked(null);
            setWords(EMPTY);
          }}
        />
      )}
    </article>
  );
}
