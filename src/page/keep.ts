import { type IDBPDatabase, openDB } from 'idb';
import type { Kept, Remembered } from './state.js';

/** What is kept on this device between visits. */
export interface Stored {
  /** Null where no bench was changed yet: the example is not kept, where somebody stands in it is. */
  kept: Kept | null;
  remembered: Partial<Remembered>;
}

/** The one door to IndexedDB: the bench and where somebody stands, each under its own key, written in one go or not at all. */
export interface Keeper {
  load: () => Promise<Stored>;
  /** @throws where the browser could not write, or another window has written since */
  saveBench: (kept: Kept) => Promise<void>;
  saveRemembered: (remembered: Remembered) => Promise<void>;
}

const STORE = 'kept';

export function keeper(): Keeper {
  let opened: Promise<IDBPDatabase> | undefined;
  /** Of the bench as this window knows it. */
  let revision = 0;
  const db = (): Promise<IDBPDatabase> =>
    (opened ??= openDB('velamen', 1, { upgrade: (fresh) => void fresh.createObjectStore(STORE) }));
  return {
    async load() {
      const base = await db();
      const bench = (await base.get(STORE, 'bench')) as (Kept & { revision: number }) | undefined;
      const remembered = ((await base.get(STORE, 'remembered')) ?? {}) as Partial<Remembered>;
      if (!bench) return { kept: null, remembered };
      const { revision: last, ...kept } = bench;
      revision = last;
      return { kept, remembered };
    },
    async saveBench(kept) {
      const turn = (await db()).transaction(STORE, 'readwrite', { durability: 'strict' });
      const there = (await turn.store.get('bench')) as { revision: number } | undefined;
      if ((there?.revision ?? 0) !== revision) {
        turn.abort();
        await turn.done.catch(() => undefined);
        throw new Error('another window has changed this bench: reload this one, or write its files out first');
      }
      await turn.store.put({ ...kept, revision: revision + 1 }, 'bench');
      await turn.done;
      revision += 1;
    },
    async saveRemembered(remembered) {
      const turn = (await db()).transaction(STORE, 'readwrite', { durability: 'strict' });
      await turn.store.put(remembered, 'remembered');
      await turn.done;
    },
  };
}
