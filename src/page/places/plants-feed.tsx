import type { Problem } from '../../problem.js';
import { type BenchField, FEED_FIELDS, POT_FIELDS } from '../edit/bench-fields.js';
import { asValue, shownAt, typedAs, writtenAt } from '../edit/bench.js';
import { Field } from '../parts/field.js';
import { More } from '../parts/more.js';
import { Problems } from '../parts/problems.js';
import type { WordsView } from '../work/words.js';

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
  const chosen = (key: string, name: string, choices: WordsView['phases'] | undefined) => (
    <Field
      name={name}
      value={writtenAt(text, path(key))}
      choices={choices ?? []}
      problems={about(key)}
      onSet={(value) => onSet(key, asValue(value))}
    />
  );
  const field = (one: BenchField) => (
    <Field
      key={one.key}
      name={one.name}
      value={shownAt(text, path(one.key), one)}
      hint={one.hint}
      {...(one.written === 'lines' || one.written === 'pairs' ? { lines: 2 } : {})}
      problems={about(one.key)}
      onSet={(value) => onSet(one.key, typedAs(value, one))}
    />
  );
  const suits = words?.plants.find(({ id }) => id === writtenAt(text, path('plants')))?.media;
  const keys = ['plants', 'medium', 'phase', ...[...FEED_FIELDS, ...POT_FIELDS].map(({ key }) => key)];
  const beside = new Set(keys.flatMap(about));
  return (
    <article>
      <h3>{name}</h3>
      <Problems problems={problems.filter((one) => !beside.has(one))} />
      <div class="pair">
        <Field name="Name of the feed" value={name} onSet={onName} />
        {chosen('plants', 'Plants', words?.plants)}
        {chosen('medium', 'In', suits ? words?.media.filter(({ id }) => suits.includes(id)) : words?.media)}
        {chosen('phase', 'Phase', words?.phases)}
        {FEED_FIELDS.map(field)}
      </div>
      <More title="Rules, pots and months" isOpen={POT_FIELDS.flatMap(({ key }) => about(key)).length > 0}>
        {() => <div class="pair">{POT_FIELDS.map(field)}</div>}
      </More>
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
