import { useState } from 'preact/hooks';
import type { Problem } from '../../problem.js';
import { say, withText } from '../actions.js';
import { Refused } from '../asking.js';
import { putBlank } from '../edit/shelf.js';
import { readDropped } from '../exchange.js';
import { Blocks } from '../parts/blocks.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import type { PlaceProps } from './place.js';

const WAYS = [
  ['label', 'A label'],
  ['blank', 'Fill in'],
  ['salt', 'A salt'],
  ['csv', 'A CSV'],
] as const;

/** Invented; its figures are those of the salts it names, with filler. */
const EXAMPLE = `Sample Fern Feed 8-4-11
Total nitrogen (N) 8 %
  7.2 % nitrate nitrogen
  0.8 % ammoniacal nitrogen
Available phosphate (P2O5) 4 %
Soluble potash (K2O) 11 %
Calcium (Ca) 5.6 %
Derived from: calcium nitrate, potassium nitrate, monoammonium phosphate`;

/** How something comes onto the shelf: a label pasted as printed, a salt by its name, a whole shelf file. */
export function ShelfAdd(props: PlaceProps) {
  const { state, desk } = props;
  const [way, setWay] = useState<(typeof WAYS)[number][0]>('label');
  const [label, setLabel] = useState('');
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const printed = useAnswer(props, 'printed', 'printed', { label: way === 'label' ? label : '' });
  const salts = useAnswer(props, 'salts', 'salts', {});
  const shelf = state.kept.texts['shelf.csv'] ?? '';

  async function put(text: string): Promise<void> {
    try {
      const added = await desk.asking.once('add', { shelf, label: text });
      desk.change((s) => withText(s, 'shelf.csv', added.shelf, desk.now(), `${added.id} was put on the shelf`));
      setLabel('');
      setProblems([]);
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      setProblems(fault.problems);
      if (fault.problems.length === 0) desk.change((s) => say(s, fault.message));
    }
  }

  async function bring(files: readonly File[]): Promise<void> {
    const { texts, notes } = await readDropped(files, 'shelf.csv');
    const text = texts['shelf.csv'];
    if (text === undefined) desk.change((s) => say(s, notes.join(' ')));
    else desk.change((s) => withText(s, 'shelf.csv', text, desk.now(), 'The shelf was replaced by the file'));
  }

  const read = printed.answer;
  return (
    <article>
      <h3>Put on the shelf</h3>
      <fieldset class="ways">
        <legend>What do you have?</legend>
        {WAYS.map(([id, word]) => (
          <label key={id}>
            <input type="radio" name="put" checked={way === id} onChange={() => setWay(id)} />
            <span>{word}</span>
          </label>
        ))}
      </fieldset>
      {way === 'label' && (
        <>
          <label class="field">
            The label, as it is printed
            <textarea
              rows={6}
              value={label}
              spellcheck={false}
              placeholder={EXAMPLE}
              onInput={(event) => setLabel(event.currentTarget.value)}
            />
          </label>
          {label === '' && (
            <button type="button" onClick={() => setLabel(EXAMPLE)}>
              Try an invented one
            </button>
          )}
        </>
      )}
      {way === 'label' && label !== '' && read && (
        <div aria-live="polite">
          {read.understood.length > 0 && (
            <Blocks
              blocks={[
                {
                  kind: 'table',
                  columns: [
                    { head: 'printed', align: 'left' },
                    { head: 'taken for', align: 'left' },
                  ],
                  rows: read.understood.map(({ printed, as }) => [printed, as]),
                },
              ]}
            />
          )}
          {read.leftOver.map((text) => (
            <p key={text}>“{text}” stands beside no nutrient, and is not used.</p>
          ))}
          <Problems problems={[...read.warnings, ...(read.product?.problems ?? [])]} />
          <div class="row">
            <button type="button" class="main" disabled={read.understood.length === 0} onClick={() => put(label)}>
              Put it on the shelf
            </button>
          </div>
        </div>
      )}
      {way === 'label' && label !== '' && printed.status === 'refused' && <Problems problems={printed.problems} />}
      {way === 'blank' && <Blank state={state} desk={desk} />}
      {way === 'salt' && (
        <label class="field">
          Generic salts, by their chemical names
          <select
            value=""
            onChange={(event) => {
              void put(event.currentTarget.value);
              event.currentTarget.value = '';
            }}
          >
            <option value="">Choose one…</option>
            {(salts.answer ?? []).map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      {way === 'csv' && (
        <label class="field">
          A shelf file, chosen here or dropped on the page; it takes the place of this one, and can be taken back
          <input
            type="file"
            accept=".csv"
            onChange={(event) => bring([...(event.currentTarget.files ?? [])].slice(0, 1))}
          />
        </label>
      )}
      <Problems problems={problems} />
    </article>
  );
}

/** A product by its name, whose label is then filled in cell by cell. */
function Blank({ desk }: PlaceProps) {
  const [name, setName] = useState('');
  const put = (form: 'powder' | 'liquid') => {
    desk.change((s) => putBlank(s, name, form, desk.now()));
    setName('');
  };
  return (
    <>
      <label class="field">
        Its name, as the label says
        <input type="text" value={name} autocomplete="off" onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      <div class="row">
        <button type="button" disabled={name.trim() === ''} onClick={() => put('powder')}>
          A powder
        </button>
        <button type="button" disabled={name.trim() === ''} onClick={() => put('liquid')}>
          A liquid
        </button>
      </div>
      <p class="quiet">Its row then stands below, to be filled in.</p>
    </>
  );
}
