import type { Problem } from '../problem.js';
import type { Answered, State } from './state.js';
import { keyOf } from './key.js';
import type { Store } from './store.js';
import type { AskedOf, Kind, ToldOf } from './work/questions.js';
import type { ToolName } from './work/tools.js';

/** What the worker says back. */
export type Reply = { id: number } & (
  | { step: string }
  | { answer: unknown; took: number }
  | { refused: readonly Problem[] }
  | { failed: string }
  | { givenUp: true }
);

/** Why a question that was asked once has no answer. */
export class Refused extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[], why: string) {
    super(why);
    this.problems = problems;
  }
}

/** A worker that was started: what it can be told, and its end. */
export interface Spawned {
  tell: (told: unknown) => void;
  end: () => void;
}

export type Spawn = (heard: (reply: Reply) => void, failed: (why: string) => void) => Promise<Spawned>;

interface Job {
  id: number;
  channel: string;
  kind: Kind;
  asked: unknown;
  of: string;
  /** True where nobody wants its answer any more. */
  left?: boolean;
  /** Of a question that is asked once and waited for. */
  once?: { done: (answer: never) => void; fail: (fault: Refused) => void };
}

/** Questions to the worker: one is worked on at a time, and of each channel only the newest waits. */
export interface Asking {
  ask: <K extends Kind>(channel: string, kind: K, asked: AskedOf<K>) => void;
  /** A question that somebody waits for: it goes before all others. @throws Refused */
  once: <K extends Kind>(kind: K, asked: AskedOf<K>) => Promise<ToldOf<K>>;
  /** Drops what a channel asks, because it is about to ask something else. */
  putOff: (channel: string) => void;
  /** Gives up what a channel asks. */
  stop: (channel: string) => void;
}

/** A newer question does not wait longer than this (ms) for an older one of its channel. */
const PATIENCE = 1500;

export function askingOf(store: Store, spawn: Spawn): Asking {
  let worker: Promise<Spawned> | undefined;
  let running: (Job & { since: number }) | null = null;
  let lastId = 0;
  let waiting: Job[] = [];

  const tell = ({ channel, once }: Pick<Job, 'channel' | 'once'>, part: Partial<Answered>): void => {
    if (once) return;
    store.change((state) => ({ ...state, answers: { ...state.answers, [channel]: told(state, channel, part) } }));
  };

  function next(): void {
    if (running !== null) return;
    const job = waiting.find(({ once }) => once) ?? waiting[0];
    if (!job) return;
    waiting = waiting.filter((other) => other !== job);
    running = { ...job, since: performance.now() };
    const { id, kind, asked } = job;
    worker ??= spawn(heard, failed);
    worker.then(
      (there) => {
        if (running?.id === id) there.tell({ id, kind, asked });
      },
      (fault: unknown) => failed(String(fault)),
    );
  }

  function heard(reply: Reply): void {
    const job = running;
    if (job === null || reply.id !== job.id) return;
    if ('step' in reply) {
      tell(job, { said: reply.step });
      return;
    }
    running = null;
    const { of, once } = job;
    if ('givenUp' in reply) {
      next();
      return;
    }
    if ('answer' in reply) {
      once?.done(reply.answer as never);
      // a newer question may be asked by now
      const status = waiting.some(({ channel }) => channel === job.channel)
        ? 'asking'
        : job.left
          ? 'put off'
          : 'answered';
      tell(job, { status, of, answer: reply.answer, problems: [], said: '', took: reply.took });
    } else if ('refused' in reply) {
      once?.fail(new Refused(reply.refused, 'refused'));
      tell(job, { status: 'refused', of, problems: reply.refused, said: '' });
    } else {
      once?.fail(new Refused([], reply.failed));
      tell(job, { status: 'failed', of, said: reply.failed });
    }
    next();
  }

  function failed(why: string): void {
    const job = running;
    restart();
    job?.once?.fail(new Refused([], why));
    if (job) tell(job, { status: 'failed', of: job.of, said: why });
    next();
  }

  function restart(): void {
    const old = worker;
    worker = undefined;
    running = null;
    void old?.then(
      (there) => there.end(),
      () => undefined,
    );
  }

  /** Asks the worker to leave off between two plans. */
  function leave(job: Job): void {
    job.left = true;
    const { id } = job;
    void worker?.then(
      (there) => there.tell({ leave: id }),
      () => undefined,
    );
  }

  /** Ends what is worked on once it has had its time; unless it is worthless by then it is asked again. */
  function interrupt({ id, since }: { id: number; since: number }, isWorthless: () => boolean): void {
    setTimeout(
      () => {
        const job = running;
        if (job?.id !== id || job.once || waiting.length === 0) return;
        if (!isWorthless()) waiting.push(job);
        restart();
        next();
      },
      Math.max(0, since + PATIENCE - performance.now()),
    );
  }

  return {
    ask(channel, kind, asked) {
      lastId += 1;
      waiting = waiting.filter((job) => job.channel !== channel);
      waiting.push({ id: lastId, channel, kind, asked, of: keyOf(kind, asked) });
      tell({ channel }, { status: 'asking', said: '' });
      // what is newly asked makes the answer to the older question worthless
      if (running?.channel === channel) {
        leave(running);
        interrupt(running, () => waiting.some((job) => job.channel === channel));
      }
      next();
    },
    once: (kind, asked) =>
      new Promise((done, fail) => {
        lastId += 1;
        const once = { done, fail };
        waiting.push({ id: lastId, channel: `once ${lastId}`, kind, asked, of: keyOf(kind, asked), once });
        if (running !== null) interrupt(running, () => waiting.some(({ channel }) => channel === running?.channel));
        next();
      }),
    putOff(channel) {
      const isWaiting = waiting.some((job) => job.channel === channel);
      waiting = waiting.filter((job) => job.channel !== channel);
      if (running?.channel === channel) leave(running);
      else if (!isWaiting) return;
      tell({ channel }, { status: 'put off', said: '' });
    },
    stop(channel) {
      waiting = waiting.filter((job) => job.channel !== channel);
      if (running?.channel === channel) restart();
      tell({ channel }, { status: 'stopped', said: '' });
      next();
    },
  };
}

/** Searches that may take minutes: nothing at the sink waits for them. And what follows a moving slider, which waits for no plan of doses. */
const LANES: Partial<Record<Kind, 'long' | 'near'>> = { buy: 'long', season: 'long', near: 'near' };
const LONG_TOOLS: readonly string[] = ['frontier', 'substitutes'] satisfies ToolName[];

const laneOf = (kind: Kind, asked: unknown): 'usual' | 'long' | 'near' =>
  kind === 'tool' && LONG_TOOLS.includes((asked as AskedOf<'tool'>).tool) ? 'long' : (LANES[kind] ?? 'usual');

/** Three workers: one for long searches, one for what moves, one for all else; each is there once it is asked. */
export const inLanes = (lanes: Record<'usual' | 'long' | 'near', Asking>): Asking => ({
  ask: (channel, kind, asked) => lanes[laneOf(kind, asked)].ask(channel, kind, asked),
  once: (kind, asked) => lanes[laneOf(kind, asked)].once(kind, asked),
  putOff(channel) {
    for (const lane of Object.values(lanes)) lane.putOff(channel);
  },
  stop(channel) {
    for (const lane of Object.values(lanes)) lane.stop(channel);
  },
});

const NOTHING: Answered = { status: 'asking', of: '', answer: undefined, problems: [], said: '', took: 0 };

const told = ({ answers }: State, channel: string, part: Partial<Answered>): Answered => ({
  ...(answers[channel] ?? NOTHING),
  ...part,
});
