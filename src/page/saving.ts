import type { Keeper } from './keep.js';
import type { State } from './state.js';
import type { Store } from './store.js';

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
        store.change((state) => ({ ...state, saving: { status: 'saved', why: '' } }));
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
  store.listen(({ kept, remembered }, before) => {
    if (kept !== before.kept || remembered !== before.remembered) void save();
  });
}
