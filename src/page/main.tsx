import { render } from 'preact';
import { App } from './app.js';
import { askingOf, inLanes } from './asking.js';
import { type Desk, localTime } from './desk.js';
import { EXAMPLE } from './example.js';
import { keeper } from './keep.js';
import { keepSaving } from './saving.js';
import { spawn } from './spawn.js';
import { startOf } from './state.js';
import { storeOf } from './store.js';

/** Starts the page: what was kept, else the example; then the view. */
async function start(): Promise<void> {
  const store = storeOf(startOf(EXAMPLE));
  const keep = keeper();
  try {
    const { kept, remembered } = await keep.load();
    store.change((state) => ({
      ...state,
      kept: kept ?? state.kept,
      // wishes that were kept before there were others lack those
      remembered: {
        ...state.remembered,
        ...remembered,
        buy: { ...state.remembered.buy, ...remembered.buy },
        year: { ...state.remembered.year, ...remembered.year },
      },
    }));
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    store.change((state) => ({ ...state, saving: { status: 'failed', why } }));
  }
  const desk: Desk = {
    change: store.change,
    asking: inLanes({ usual: askingOf(store, spawn), long: askingOf(store, spawn), near: askingOf(store, spawn) }),
    now: () => localTime(new Date()),
  };
  const root = document.getElementById('page')!;
  root.textContent = '';
  const show = (): void => render(<App state={store.read()} desk={desk} />, root);
  store.listen(show);
  keepSaving(store, keep);
  show();
  // the first question then finds a worker that stands ready
  setTimeout(() => desk.asking.once('words', {}).catch(() => undefined), 500);
}

void start();
