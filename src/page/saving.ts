import type { Keeper } from './keep.js';
import type { Remembered, State } from './state.js';
import type { Store } from './store.js';

/** Milliseconds for which a slider rests before its place is written: each write waits for the disk. */
const MOVES = 300;

const areAlikeButTuned = (a: Remembered, b: Remembered): boolean =>
  (Object.keys(a) as (keyof Remembered)[]).every((key) => key === 'tuned' || a[key] === b[key]);

/** Keeps what changes, one write after the other, always the newest; what could not be kept is told in the state. */
export function keepSaving(store: Store, keep: Keeper): void {
  let saved: State = store.read();
  let busy = false;
  async function save(): Promise<void> {
    if (busy) return;
    busy = true;
    for (;;) {
      const now = store.read();
      const bench = now.kept !== saved.kept;
      if (!bench && now.remembered === saved.remembered) break;
      try {
        if (bench) await keep.saveBench(now.kept);
        if (now.remembered !== saved.remembered) await keep.saveRemembered(now.remembered);
        store.change((state) =>
          state.saving.status === 'saved' ? state : { ...state, saving: { status: 'saved', why: '' } },
        );
      } catch (fault) {
        const why = fault instanceof Error ? fault.message : String(fault);
        store.change((state) => ({
          ...state,
          saving: { status: 'failed', why },
          said: `The last change is not kept on this device: ${why}.`,
        }));
      }
      saved = now;
    }
    busy = false;
  }
  let resting: ReturnType<typeof setTimeout> | undefined;
  store.listen(({ kept, remembered }, before) => {
    if (kept === before.kept && remembered === before.remembered) return;
    clearTimeout(resting);
    if (kept === before.kept && areAlikeButTuned(remembered, before.remembered))
      resting = setTimeout(() => void save(), MOVES);
    else void save();
  });
}
