import { remember } from '../actions.js';
import { asList, asValue, freeName, keysAt, renamed, setValue, writtenAt } from '../edit/bench.js';
import { Field } from '../parts/field.js';
import { Problems } from '../parts/problems.js';
import { TextOf } from '../parts/text-of.js';
import { useAnswer } from '../parts/use-answer.js';
import { FeedCard } from './plants-feed.js';
import type { Place, PlaceProps } from './place.js';

/** What is fed, and with what it is watered, measured and read: bench.yaml, field by field. */
export const plantsPlace: Place = {
  word: 'Plants',
  icon: 'M12 21v-8M12 13c-5 0-7-3-7-8 5 0 7 3 7 8zM12 15c0-4 2-6 7-6 0 4-2 6-7 6z',
  View: PlantsPlace,
};

const PENS = [
  { id: 'EC', name: 'EC, in mS/cm' },
  { id: '{ scale: 500 }', name: 'ppm, 500 scale' },
  { id: '{ scale: 700 }', name: 'ppm, 700 scale' },
];

const KIT: [key: string, name: string, hint: string][] = [
  ['scale', 'Scale', 'Its smallest step, such as 0.01 g'],
  ['syringe', 'Syringe', 'Its size, such as 1 mL'],
  ['dropper', 'Dropper', 'Such as 20 drops/mL'],
];

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
  const typed = (path: readonly string[], value: string): void =>
    set(path, value.trim() === '' ? null : asValue(value));
  const names = keysAt(text, ['feeds']);
  const placed = new Set(
    [...['name', 'currency', 'water', 'kit', 'pen'], ...names.map((name) => `feeds.${name}`)].flatMap(about),
  );
  const pen = writtenAt(text, ['pen']);
  const waters = words.answer?.waters ?? [];
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
        <h3>Water, kit and pen</h3>
        <div class="pair">
          <Field
            name="Water"
            value={writtenAt(text, ['water', 'use']) || writtenAt(text, ['water'])}
            choices={waters}
            problems={about('water')}
            onSet={(id) => set(['water'], `{ use: ${asValue(id)} }`)}
          />
          <Field
            name="Or its analysis, in mg/L"
            value={writtenAt(text, ['water'])}
            hint="As your supplier states it, such as { Ca: 40, Mg: 11, alkalinity: 130 }"
            onSet={(value) => set(['water'], value)}
          />
          <Field
            name="Spoons, level"
            value={listed(writtenAt(text, ['kit', 'spoons']))}
            hint="With commas between: 1 tsp, 1/2 tsp, 1/4 tsp"
            problems={about('kit.spoons')}
            onSet={(value) => set(['kit', 'spoons'], asList(value.split(',')))}
          />
          {KIT.map(([key, name, hint]) => (
            <Field
              key={key}
              name={name}
              value={writtenAt(text, ['kit', key])}
              hint={hint}
              problems={about(`kit.${key}`)}
              onSet={(value) => typed(['kit', key], value)}
            />
          ))}
          <Field
            name="Pen"
            value={/^\{ *scale: *\d+ *\}$/.test(pen) ? pen.replace(/^\{ */, '{ ').replace(/ *\}$/, ' }') : pen}
            choices={PENS}
            problems={about('pen')}
            onSet={(value) => set(['pen'], value)}
          />
          <Field
            name="Money"
            value={writtenAt(text, ['currency'])}
            hint="What prices are in, such as EUR"
            problems={about('currency')}
            onSet={(value) => typed(['currency'], value)}
          />
          <Field
            name="Name of the bench"
            value={writtenAt(text, ['name'])}
            problems={about('name')}
            onSet={(value) => typed(['name'], value)}
          />
        </div>
      </article>
      <TextOf file="bench.yaml" state={state} desk={desk} problems={problems} />
    </>
  );
}

/** `[1 tsp, 1/4 tsp]` as people write a list. */
const listed = (written: string): string => written.replace(/^\[|\]$/g, '').replaceAll('"', '');
