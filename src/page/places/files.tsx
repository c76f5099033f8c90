import type { Place, PlaceProps } from './place.js';
import { exported, replaced } from '../actions.js';
import { EXAMPLE } from '../example.js';
import { useEffect, useState } from 'preact/hooks';
import { download, readDropped, type Taken, zipOf } from '../exchange.js';
import { FILE_NAMES } from '../state.js';

/** The files of the bench: the real copy. Out as they are, in again with a look first. */
export const filesPlace: Place = {
  word: 'Files',
  icon: 'M6 3h8l4 4v14H6zM14 3v4h4M9 12h6M9 16h6',
  View: FilesPlace,
};

function FilesPlace({ state, desk }: PlaceProps) {
  const [taken, setTaken] = useState<Taken | null>(null);
  const { dropped } = state;
  useEffect(() => {
    if (dropped.length === 0) return;
    desk.change((s) => ({ ...s, dropped: [] }));
    // one table by itself is a shelf, whatever it is called
    const isShelf = dropped.length === 1 && /(?<!journal)\.csv$/i.test(dropped[0]!.name);
    void readDropped(dropped, isShelf ? 'shelf.csv' : undefined).then(setTaken);
  }, [dropped]);
  const { texts, isExample, exportedAt } = state.kept;
  const there = FILE_NAMES.filter((name) => texts[name] !== undefined);
  const out = (names: readonly (typeof FILE_NAMES)[number][]) => {
    if (names.length === 1) download(names[0]!, new TextEncoder().encode(texts[names[0]!]!));
    else download('bench.zip', zipOf(texts));
    desk.change((s) => exported(s, desk.now(), names.length === there.length));
  };
  return (
    <>
      <h2>Files</h2>
      <p>
        The files you write out are the real copy of your bench. What this page keeps lives in this browser alone, and a
        browser may clear it: write the files out after every change that matters.
      </p>
      <p class="when">
        {isExample
          ? 'This is the invented example; there is nothing of yours in it yet.'
          : exportedAt === null
            ? 'Never written out.'
            : `Last written out: ${exportedAt.replace('T', ' ')}.`}
      </p>
      <div class="row">
        <button type="button" class="main" onClick={() => out(there)}>
          Write out all, as one zip
        </button>
        {there.map((name) => (
          <button type="button" key={name} onClick={() => out([name])}>
            {name}
          </button>
        ))}
      </div>
      <h3>Bring files in</h3>
      <label class="field">
        bench.yaml, shelf.csv and journal.csv, one by one or as a zip; or drop them anywhere on the page
        <input
          type="file"
          multiple
          accept=".yaml,.yml,.csv,.zip"
          onChange={async (event) => setTaken(await readDropped([...(event.currentTarget.files ?? [])]))}
        />
      </label>
      {taken && (
        <section class="card" aria-live="polite">
          <h3>Before anything is replaced</h3>
          <ul>
            {taken.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
          {FILE_NAMES.filter((name) => taken.texts[name] !== undefined).map((name) => (
            <details key={name}>
              <summary>
                {name}: {linesOf(taken.texts[name]!)} lines
                {texts[name] === undefined
                  ? ', new'
                  : texts[name] === taken.texts[name]
                    ? ', the same as here'
                    : ', differs from what is here'}
              </summary>
              <pre tabIndex={0}>{taken.texts[name]}</pre>
            </details>
          ))}
          <div class="row">
            {Object.keys(taken.texts).length > 0 && (
              <button
                type="button"
                class="main"
                onClick={() => {
                  desk.change((s) => replaced(s, { ...(isExample ? {} : texts), ...taken.texts }, false, desk.now()));
                  setTaken(null);
                }}
              >
                Take these
              </button>
            )}
            <button type="button" onClick={() => setTaken(null)}>
              Leave it
            </button>
          </div>
        </section>
      )}
      <h3>Start over</h3>
      <button type="button" onClick={() => desk.change((s) => replaced(s, EXAMPLE, true, null))}>
        Show the example again
      </button>
    </>
  );
}

const linesOf = (text: string): number => text.split('\n').length;
