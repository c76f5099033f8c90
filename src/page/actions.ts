import type { BenchTexts, FileName, Remembered, State, Tuned } from './state.js';

/** What can be done to the state, each as `(state, …) → state`; no clock, no browser. */

/** One file changed by hand of the grower. `undo` names it where it can be taken back. */
export function withText(state: State, file: FileName, text: string, at: string, undo?: string): State {
  if (state.kept.texts[file] === text) return state;
  return withTexts(state, { ...state.kept.texts, [file]: text }, at, undo);
}

export function withTexts(state: State, texts: BenchTexts, at: string, undo?: string): State {
  return {
    ...state,
    kept: { ...state.kept, texts, isExample: false, changedAt: at, isOut: false },
    undo: undo === undefined ? null : { texts: state.kept.texts, said: undo },
    ...(undo === undefined ? {} : { said: `${undo}. It can be taken back.` }),
  };
}

export function undone(state: State, at: string): State {
  if (state.undo === null) return state;
  const { texts, said } = state.undo;
  return {
    ...state,
    kept: { ...state.kept, texts, changedAt: at, isOut: false },
    undo: null,
    said: `Taken back: ${said}.`,
  };
}

/** Another bench in place of this one; where somebody stood is forgotten, it belonged to the other. */
export const replaced = (state: State, texts: BenchTexts, isExample: boolean, at: string | null): State => ({
  ...state,
  kept: {
    texts,
    isExample,
    changedAt: null,
    exportedAt: isExample ? null : at,
    isOut: at !== null && (state.kept.isExample || state.kept.isOut),
  },
  remembered: { ...state.remembered, feed: null, tuned: { way: 'given' } },
  undo: { texts: state.kept.texts, said: 'The bench was replaced' },
  said: 'The bench was replaced. It can be taken back.',
});

/** @param all whether every file was written out, or one of them alone */
export const exported = (state: State, at: string, all: boolean): State => ({
  ...state,
  kept: { ...state.kept, exportedAt: at, isOut: all || state.kept.isOut },
  said: 'The bench files were written.',
});

export const remember = <Key extends keyof Remembered>(state: State, key: Key, value: Remembered[Key]): State => ({
  ...state,
  remembered: { ...state.remembered, [key]: value },
});

export const tune = (state: State, wish: Partial<Tuned>): State =>
  remember(state, 'tuned', { ...state.remembered.tuned, ...wish });

export const say = (state: State, said: string): State => (state.said === said ? state : { ...state, said });

/** True where something was changed since the files were last written out. */
export const isUnexported = ({ kept }: State): boolean => !kept.isExample && !kept.isOut;
