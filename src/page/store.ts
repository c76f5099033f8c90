import type { State } from './state.js';

/** The one state of the page. `change` is the only way to a new one; who listens is told once a turn. */
export interface Store {
  read: () => State;
  change: (next: (state: State) => State) => void;
  listen: (heard: (state: State, before: State) => void) => void;
}

export function storeOf(start: State): Store {
  let state = start;
  let told = start;
  let waiting = false;
  const listeners: ((state: State, before: State) => void)[] = [];
  const tell = (): void => {
    waiting = false;
    const before = told;
    told = state;
    if (state !== before) for (const heard of listeners) heard(state, before);
  };
  return {
    read: () => state,
    change(next) {
      state = next(state);
      if (waiting) return;
      waiting = true;
      queueMicrotask(tell);
    },
    listen: (heard) => void listeners.push(heard),
  };
}
