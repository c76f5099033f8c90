import type { Answered, State } from './state.js';
import type { Store } from './store.js';
import type { Problem } from '../problem.js';
import type { AskedOf, Kind } from './work/questions.js';

/** What the worker says back. */
export type Reply = { id: number } & (
  | { step: string }
  | { answer: unknown; took: number }
  | { refused: readonly Problem[] }
  | { failed: string }
);

interface Job {
  id: number;
  channel: string;
  kind: Kind;
  asked: unknown;
  of: string;
}

/** Questions to the worker: one is worked on at a time, and of each channel only the newest waits. */
export interface Asking {
  ask: <K extends Kind>(channel: string, kind: K, asked: AskedOf<K>) => void;
  /** Gives up what a channel asks. */
  stop: (channel: string) => void;
}

/** A newer question does not wait longer than this (ms) for an older one of its channel. */
const PATIENCE = 1500;

export const keyOf = (kind: Kind, asked: unknown): string => JSON.stringify([kind, asked]);

export function askingOf(store: Store, spawn: () => Promise<Worker>): Asking {
  let worker: Promise<Worker> | undefined;
  let running: (Job & { since: number }) | null = null;
  let lastId = 0;
  const waiting = new Map<string, Job>();

  const tell = (channel: string, part: Partial<Answered>): void =>
    store.change((state) => ({ ...state, answers: { ...state.answers, [channel]: told(state, channel, part) } }));

  function next(): void {
    if (running !== null) return;
    const [job] = waiting.values();
    if (!job) return;
    waiting.delete(job.channel);
    running = { ...job, since: performance.now() };
    const { id, kind, asked } = job;
    worker ??= spawn().then((fresh) => {
      fresh.onmessage = ({ data }: MessageEvent<Reply>) => heard(data);
      fresh.onerror = (event) => failed(event.message || 'the worker could not start');
      return fresh;
    });
    worker.then(
      (there) => {
        if (running?.id === id) there.postMessage({ id, kind, asked });
      },
      (fault: unknown) => failed(String(fault)),
    );
  }

  function heard(reply: Reply): void {
    if (running === null || reply.id !== running.id) return;
    const { channel, of } = running;
    if ('step' in reply) {
      tell(channel, { said: reply.step });
      return;
    }
    running = null;
    if ('answer' in reply)
      tell(channel, { status: 'answered', of, answer: reply.answer, problems: [], said: '', took: reply.took });
    else if ('refused' in reply) tell(channel, { status: 'refused', of, problems: reply.refused, said: '' });
    else tell(channel, { status: 'failed', of, said: reply.failed });
    next();
  }

  function failed(why: string): void {
    const job = running;
    restart();
    if (job) tell(job.channel, { status: 'failed', of: job.of, said: why });
    next();
  }

  function restart(): void {
    const old = worker;
    worker = undefined;
    running = null;
    void old?.then(
      (there) => there.terminate(),
      () => undefined,
    );
  }

  return {
    ask(channel, kind, asked) {
      lastId += 1;
      const of = keyOf(kind, asked);
      waiting.delete(channel);
      waiting.set(channel, { id: lastId, channel, kind, asked, of });
      tell(channel, { status: 'asking', said: '' });
      if (running?.channel === channel) {
        const patience = running.since + PATIENCE - performance.now();
        const { id } = running;
        // what is newly asked makes the answer to the older question worthless
        setTimeout(
          () => {
            if (running?.id !== id || !waiting.has(channel)) return;
            restart();
            next();
          },
          Math.max(0, patience),
        );
      }
      next();
    },
    stop(channel) {
      waiting.delete(channel);
      if (running?.channel === channel) restart();
      tell(channel, { status: 'stopped', said: '' });
      next();
    },
  };
}

const NOTHING: Answered = { status: 'asking', of: '', answer: undefined, problems: [], said: '', took: 0 };

const told = ({ answers }: State, channel: string, part: Partial<Answered>): Answered => ({
  ...(answers[channel] ?? NOTHING),
  ...part,
});
