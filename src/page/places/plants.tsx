import { remember } from '../actions.js';
import { BENCH_FIELDS, type BenchField, KIT_FIELDS, PENS, SEASON_FIELDS } from '../edit/bench-fields.js';
import { freeName, keysAt, renamed, setValue, shownAt, typedAs, writtenAt } from '../edit/bench.js';
import { Field } from '../parts/field.js';
import { More } from '../parts/more.js';
import { Problems } from '../parts/problems.js';
import { TextOf } from '../parts/text-of.js';
import { Tool } from '../parts/tool.js';
import { useAnswer } from '../parts/use-answer.js';
import { FeedCard } from './plants-feed.js';
import { WaterFields } from './plants-water.js';
import type { Place, PlaceProps } from './place.js';

/** What is fed, and with what it is watered, measured and read: bench.yaml, field by field. */
export const plantsPlace: Place = {
  word: 'Plants',
  icon: 'M12 21v-8M12 13c-5 0-7-3-7-8 5 0 7 3 7 8zM12 15c0-4 2-6 7-6 0 4-2 6-7 6z',
  View: PlantsPlace,
};

/** Not narrowed. */
const ANY = { id: '', name: 'any' };
const BENCH_KEYS = BENCH_FIELDS.map(({ key }) => key);

function PlantsPlace(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const text = texts['bench.yaml'] ?? '';
  const bench = useAnswer(props, 'bench', 'bench', { texts });
  const words = useAnswer(props, 'words', 'words', {});
  const problems = (bench.answer?.problems ?? []).filter(({ where }) => where.file === 'bench.yaml');
  const about = (field: string) =>
    problems.filter(({ where }) => where.field === field || where.field?.startsWith(`${field}.`));
  const set = (path: readonly string[], value: string | null, undo?: string): void =>
    desk.change((s) => setValue(s, path, value, desk.now(), undo));
  const names = keysAt(text, ['feeds']);
  const fields = [
    ...BENCH_KEYS,
    ...KIT_FIELDS.map(({ key }) => `kit.${key}`),
    ...SEASON_FIELDS.map(({ key }) => `season.${key}`),
  ];
  const placed = new Set([...fields, 'water', 'pen', ...names.map((name) => `feeds.${name}`)].flatMap(about));
  const pen = writtenAt(text, ['pen']);
  const field = (above: readonly string[], one: BenchField) => {
    const path = [...above, one.key];
    return (
      <Field
        key={path.join('.')}
        name={one.name}
        value={shownAt(text, path, one)}
        hint={one.hint}
        {...(one.choices ? { choices: one.choices } : {})}
        problems={about(path.join('.'))}
        onSet={(value) => set(path, typedAs(value, one))}
      />
    );
  };
  return (
    <>
      <h2>Plants</h2>
      <Problems problems={problems.filter((one) => !placed.has(one))} />
      {names.map((name) => (
        <FeedCard
          key={name}
          name={name}
          text={text}
          words={words.answer}
          problems={about(`feeds.${name}`)}
          onSet={(key, value) => set(['feeds', name, key], value)}
          onGone={names.length > 1 ? () => set(['feeds', name], null, `The feed ${name} was taken out`) : undefined}
          onName={(to) => desk.change((s) => renamed(s, name, to, desk.now()))}
          onFeed={() => desk.change((s) => remember(remember(s, 'feed', name), 'place', 'feed'))}
        />
      ))}
      <button
        type="button"
        onClick={() =>
          set(['feeds', freeName(names, 'new feed')], '{ plants: phalaenopsis, medium: bark, strength: 75 % }')
        }
      >
        Another feed
      </button>
      <article class="spaced">
        <h3>Water</h3>
        <WaterFields {...props} text={text} waters={words.answer?.waters ?? []} problems={about('water')} />
      </article>
      <article>
        <h3>Kit and pen</h3>
        <div class="pair">
          {KIT_FIELDS.map((one) => field(['kit'], one))}
          <Field
            name="Pen"
            value={/^\d+$/.test(pen) ? `{ scale: ${pen} }` : pen.replace(/^\{ *scale: *(\w+) *\}$/, '{ scale: $1 }')}
            choices={PENS}
            problems={about('pen')}
            onSet={(value) => set(['pen'], value)}
          />
        </div>
        <Tool
          {...props}
          tool="standard"
          title="Check the pen in its standard"
          fields={[
            { key: 'standard', name: 'What the bottle says, such as 1413 µS' },
            { key: 'reads', name: 'What the pen shows in it' },
          ]}
          button="Check it"
          wishes={(words) => words}
        />
      </article>
      <article>
        <More title="Name, money and year" isOpen={[...BENCH_KEYS, 'season'].flatMap(about).length > 0}>
          {() => (
            <div class="pair">
              {BENCH_FIELDS.map((one) => field([], one))}
              {SEASON_FIELDS.map((one) => field(['season'], one))}
            </div>
          )}
        </More>
      </article>
      <article>
        <Tool
          {...props}
          tool="programmes"
          title="What plants want: the programmes"
          fields={[
            { key: 'plants', name: 'Programmes for', choices: [ANY, ...(words.answer?.plants ?? [])] },
            { key: 'medium', name: 'Grown in', choices: [ANY, ...(words.answer?.media ?? [])] },
            { key: 'phase', name: 'While in', choices: [ANY, ...(words.answer?.phases ?? [])] },
          ]}
          button="Show the programmes"
          wishes={(chosen) => Object.fromEntries(Object.entries(chosen).filter(([, id]) => id !== ''))}
        />
      </article>
      <TextOf file="bench.yaml" state={state} desk={desk} problems={problems} />
    </>
  );
}
