import type { Browser, Page } from 'playwright-core';

/** A task of the page's main thread: ms of the clock, and ms for which the thread was really at work. */
export interface Task {
  clock: number;
  busy: number;
}

/** What the main thread of the page did meanwhile, task by task, as the browser itself traces it. */
export async function tasksWhile(browser: Browser, page: Page, what: () => Promise<unknown>): Promise<Task[]> {
  await browser.startTracing(page, {
    categories: ['disabled-by-default-devtools.timeline', 'devtools.timeline', '__metadata'],
  });
  await what();
  const trace = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
  // a browser has pages of its own as well
  const own = new Set(
    trace.traceEvents.flatMap(({ args }) =>
      [...(args?.data?.frames ?? []), args?.data].flatMap((frame) =>
        frame?.url?.startsWith('file:') && frame.processId !== undefined ? [frame.processId] : [],
      ),
    ),
  );
  if (own.size === 0) throw new Error('the trace does not tell which process was the page');
  const mains = new Set(
    trace.traceEvents
      .filter(({ name, pid, args }) => name === 'thread_name' && args?.name === 'CrRendererMain' && own.has(pid))
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  return trace.traceEvents
    .filter(({ name, pid, tid, dur }) => name === 'RunTask' && dur !== undefined && mains.has(`${pid} ${tid}`))
    .map(({ dur = 0, tdur = dur }) => ({ clock: dur / 1000, busy: tdur / 1000 }));
}

interface TraceEvent {
  name: string;
  pid: number;
  tid: number;
  dur?: number;
  tdur?: number;
  args?: { name?: string; data?: Frame & { frames?: Frame[] } };
}

interface Frame {
  url?: string;
  processId?: number;
}

/** By the clock, which counts what else the machine does; and by the time at work alone. */
export function longest(tasks: readonly Task[]): string {
  const told = (of: keyof Task): string => {
    const times = tasks.map((task) => task[of]);
    return `${times.filter((time) => time > LONG).length} over ${LONG} ms, the longest ${Math.round(Math.max(0, ...times))} ms`;
  };
  return `${told('busy')} at work; by the clock ${told('clock')}`;
}

const LONG = 50;
