import type { Problem } from '../../problem.js';
import { asList, asValue, itemsAt, writtenAt } from '../edit/bench.js';
import { Field } from '../parts/field.js';
import { Problems } from '../parts/problems.js';
import type { WordsView } from '../work/words.js';

const SAID: [key: string, name: string, hint: string][] = [
  ['strength', 'Strength', 'A share such as 80 %, or N 90 mg/L'],
  ['batch', 'Mixed at a time', 'Such as 4 L or 1 US gal'],
  ['weekly', 'Used in a week', 'Such as 10 L'],
];

/** One feed of bench.yaml: which plants, in what, when, how strong. */
export function FeedCard({
  name,
  text,
  words,
  problems,
  onSet,
  onGone,
  onName,
  onFeed,
}: {
  name: string;
  text: string;
  words: WordsView | undefined;
  problems: readonly Problem[];
  onSet: (key: string, value: string | null) => void;
  onGone: (() => void) | undefined;
  onName: (name: string) => void;
  onFeed: () => void;
}) {
  const path = (key: string): string[] => ['feeds', name, key];
  const about = (key: string) =>
    problems.filter(
      ({ where }) => where.field === `feeds.${name}.${key}` || where.field?.startsWith(`feeds.${name}.${key}.`),
    );
  const chosen = (key: string, name: string, choices: WordsView['plants'] | undefined) => (
    <Field
      name={name}
      value={writtenAt(text, path(key))}
      choices={choices ?? []}
      problems={about(key)}
      onSet={(value) => onSet(key, asValue(value))}
    />
  );
  const keys = ['plants', 'medium', 'phase', 'rules', ...SAID.map(([key]) => key)];
  const beside = new Set(keys.flatMap(about));
  return (
    <article>
      <h3>{name}</h3>
      <Problems problems={problems.filter((one) => !beside.has(one))} />
      <div class="pair">
        <Field name="Name of the feed" value={name} onSet={onName} />
        {chosen('plants', 'Plants', words?.plants)}
        {chosen('medium', 'In', words?.media)}
        {chosen('phase', 'Phase', words?.phases)}
        {SAID.map(([key, title, hint]) => (
          <Field
            key={key}
            name={title}
            value={writtenAt(text, path(key))}
            hint={hint}
            problems={about(key)}
            onSet={(value) => onSet(key, value.trim() === '' ? null : asValue(value))}
          />
        ))}
      </div>
      <Field
        name="Rules of your own, one to a line"
        value={itemsAt(text, path('rules')).join('\n')}
        hint="Such as NH4 <= 0.1 * N"
        lines={2}
        problems={about('rules')}
        onSet={(value) => onSet('rules', value.trim() === '' ? null : asList(value.split('\n')))}
      />
      <div class="row">
        <button type="button" class="main" onClick={onFeed}>
          See its feed
        </button>
        {onGone && (
          <button type="button" onClick={onGone}>
            Take {name} out
          </button>
        )}
      </div>
    </article>
  );
}
