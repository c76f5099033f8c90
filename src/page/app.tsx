import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { isUnexported, remember, undone } from './actions.js';
import type { Desk } from './desk.js';
import { PLACE } from './places/index.js';
import { PLACES, type PlaceName } from './places/names.js';
import type { State } from './state.js';

/** The frame around every place: the name of the bench, the bar of places, what can be taken back, what is read out. */
export function App({ state, desk }: { state: State; desk: Desk }) {
  const { place } = state.remembered;
  const { View } = PLACE[place];
  const main = useRef<HTMLElement>(null);
  const shown = useRef<PlaceName>(place);
  useEffect(() => {
    // else the browser would leave the page for the file
    const over = (event: DragEvent): void => event.preventDefault();
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      const dropped = [...(event.dataTransfer?.files ?? [])];
      if (dropped.length > 0) desk.change((s) => remember({ ...s, dropped }, 'place', 'files'));
    };
    window.addEventListener('dragover', over);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', over);
      window.removeEventListener('drop', drop);
    };
  }, []);
  useLayoutEffect(() => {
    // a new place is read from its top, by eyes and by screen readers
    if (shown.current !== place) {
      main.current?.focus();
      window.scrollTo(0, 0);
    }
    shown.current = place;
  }, [place]);
  return (
    <>
      <header class="top">
        <h1>velamen</h1>
        <Kept state={state} desk={desk} />
      </header>
      <nav aria-label="Places">
        {PLACES.map((name) => (
          <button
            key={name}
            type="button"
            aria-current={name === place ? 'page' : undefined}
            onClick={() => desk.change((s) => remember(s, 'place', name))}
          >
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d={PLACE[name].icon} />
            </svg>
            {PLACE[name].word}
          </button>
        ))}
      </nav>
      <main ref={main} tabIndex={-1} data-place={place}>
        <View state={state} desk={desk} />
      </main>
      {state.undo && <Undo undo={state.undo} desk={desk} />}
      <p class="spoken" role="status" aria-live="polite">
        {state.said}
      </p>
    </>
  );
}

/** Milliseconds for which what can be taken back lies over the page; then it stands at its end, and covers nothing. */
const OVER_THE_PAGE = 8000;

function Undo({ undo, desk }: { undo: NonNullable<State['undo']>; desk: Desk }) {
  const [resting, setResting] = useState<State['undo']>(null);
  useEffect(() => {
    const timer = setTimeout(() => setResting(undo), OVER_THE_PAGE);
    return () => clearTimeout(timer);
  }, [undo]);
  return (
    <section class={resting === undo ? 'undo resting' : 'undo'} aria-label="The last change">
      <span>{undo.said}.</span>
      <button type="button" onClick={() => desk.change((s) => undone(s, desk.now()))}>
        Take back
      </button>
      <button type="button" aria-label="Put this note away" onClick={() => desk.change((s) => ({ ...s, undo: null }))}>
        ✕
      </button>
    </section>
  );
}

/** Whether what is seen is kept, and whether the files hold it too. */
function Kept({ state, desk }: { state: State; desk: Desk }) {
  const toFiles = () => desk.change((s) => remember(s, 'place', 'files'));
  const { saving, kept } = state;
  const [word, tone] =
    saving.status === 'failed'
      ? ['NOT kept on this device', 'bad']
      : kept.isExample
        ? ['An invented example', 'quiet']
        : isUnexported(state)
          ? [kept.exportedAt === null ? 'Kept here, not in a file yet' : 'Kept here, not in your files yet', 'open']
          : ['Kept, and in your files', 'quiet'];
  return (
    <button type="button" class={`kept ${tone}`} title={saving.why} onClick={toFiles}>
      {word}
    </button>
  );
}
