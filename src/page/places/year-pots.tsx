import { useState } from 'preact/hooks';
import type { Problem } from '../../problem.js';
import { Field } from '../parts/field.js';
import { useAnswer } from '../parts/use-answer.js';
import type { RecordAsked } from '../work/record.js';
import type { PlaceProps } from './place.js';
import { Entry } from './year-entry.js';

const EMPTY = { pot: '', reading: '', feed: '', fed: '', holds: '' };
type Words = typeof EMPTY;

const UNNAMED: Problem = {
  severity: 'error',
  code: 'pot-unnamed',
  where: {},
  found: 'no name',
  expected: 'your own name for the pot',
  fix: 'Write for example window-3.',
};

/** What ran out of a pot: judged, then written into the journal. */
export function WritePot(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const feeds = useAnswer(props, 'bench', 'bench', { texts }).answer?.feeds ?? [];
  const [words, setWords] = useState<Words>(EMPTY);
  const [isUnnamed, setUnnamed] = useState(false);
  const [asked, setAsked] = useState<Omit<RecordAsked, 'texts'> | null>(null);
  const answer = useAnswer(props, 'record', 'record', asked && { texts, ...asked });
  const about = (field: string): readonly Problem[] =>
    asked !== null && answer.status === 'refused' ? answer.problems.filter(({ where }) => where.field === field) : [];
  const feed = words.feed || (feeds[0]?.name ?? '');
  const field = (key: keyof Words, name: string, hint: string) => (
    <Field
      name={name}
      value={words[key]}
      hint={hint}
      problems={key === 'pot' && isUnnamed ? [UNNAMED] : about(`--${key}`)}
      onSet={(value) => setWords((before) => ({ ...before, [key]: value }))}
    />
  );
  return (
    <article>
      <h3>Read a pot</h3>
      <p>Water the pot, and catch the last of what runs out below in a clean cup.</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          setUnnamed(words.pot.trim() === '');
          const { pot, reading, fed, holds } = words;
          const isSaid = (word: string): boolean => word.trim() !== '';
          const wishes = {
            pot,
            reading: isSaid(reading) ? [reading] : [],
            ...(feed === '' ? {} : { feed }),
            ...(isSaid(fed) ? { fed } : {}),
            ...(isSaid(holds) ? { holds } : {}),
          };
          setAsked(isSaid(pot) ? { wishes, on: desk.now().slice(0, 10) } : null);
        }}
      >
        <div class="pair">
          {field('pot', 'Which pot', 'Your own name for it, such as window-3')}
          {field('reading', 'What the pen shows of what runs out', 'Such as 0.9, or 450 ppm')}
          {feeds.length > 1 && (
            <Field
              name="Its feed"
              value={feed}
              choices={feeds.map(({ name }) => ({ id: name, name }))}
              problems={about('--feed')}
              onSet={(value) => setWords((before) => ({ ...before, feed: value }))}
            />
          )}
          {field('fed', 'What the pen shows of its feed', 'Empty: as the last can of that feed in the journal')}
          {field('holds', 'What the empty pot holds', 'Such as 0.5 L; empty: as told last')}
        </div>
        <button type="submit">Judge the pot</button>
      </form>
      {asked !== null && (
        <Entry
          {...props}
          asked={{ texts, ...asked }}
          beside={['--reading', '--fed', '--holds', '--pot', ...(feeds.length > 1 ? ['--feed'] : [])]}
          onWritten={() => {
            setAsked(null);
            setWords(EMPTY);
          }}
        />
      )}
    </article>
  );
}
