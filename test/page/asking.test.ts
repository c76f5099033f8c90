import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { askingOf, type Reply } from '../../src/page/asking.js';
import { startOf } from '../../src/page/state.js';
import { storeOf } from '../../src/page/store.js';
import { feedQuestion } from '../../src/page/work/feed.js';

const texts = {
  'bench.yaml': readFileSync('examples/moss-without-ammonium/bench.yaml', 'utf8'),
  'shelf.csv': readFileSync('examples/moss-without-ammonium/shelf.csv', 'utf8'),
};
const at = (strength: string) => ({ texts, feed: null, tuned: { way: 'given' as const, strength } });
const turn = () => new Promise((done) => setTimeout(done));

/** A worker that answers when it is told to. */
function desk() {
  const heard: Record<string, unknown>[] = [];
  let says: (reply: Reply) => void = () => undefined;
  const store = storeOf(startOf(texts));
  const asking = askingOf(store, async (reply) => {
    says = reply;
    return { tell: (told) => heard.push(told as Record<string, unknown>), end: () => undefined };
  });
  return { heard, store, asking, says: (reply: Reply) => says(reply) };
}

describe('asking the worker while a slider moves', () => {
  it('leaves a plan that nobody wants, and asks the newest question alone once the worker is free', async () => {
    const { heard, store, asking, says } = desk();
    asking.ask('feed', 'feed', at('50 %'));
    await turn();
    expect(heard).toMatchObject([{ id: 1, kind: 'feed' }]);
    asking.putOff('feed');
    await turn();
    expect(heard.at(-1)).toEqual({ leave: 1 });
    expect(store.read().answers.feed!.status).toBe('put off');
    asking.ask('feed', 'feed', at('60 %'));
    asking.ask('feed', 'feed', at('70 %'));
    await turn();
    expect(heard.filter(({ kind }) => kind === 'feed')).toHaveLength(1);
    says({ id: 1, givenUp: true });
    await turn();
    expect(heard.at(-1)).toMatchObject({ id: 3, asked: { tuned: { strength: '70 %' } } });
    says({ id: 3, answer: 'seventy', took: 1 });
    expect(store.read().answers.feed).toMatchObject({ status: 'answered', answer: 'seventy' });
  });

  it('shows what comes while a newer question waits, and says that it is not the answer yet', async () => {
    const { store, asking, says } = desk();
    asking.ask('near', 'near', at('50 %'));
    await turn();
    asking.ask('near', 'near', at('60 %'));
    says({ id: 1, answer: 'fifty', took: 1 });
    expect(store.read().answers.near).toMatchObject({ status: 'asking', answer: 'fifty' });
    await turn();
    says({ id: 2, answer: 'sixty', took: 1 });
    expect(store.read().answers.near).toMatchObject({ status: 'answered', answer: 'sixty' });
  });

  it('ends a plan where the pause between two plans says so', async () => {
    let pauses = 0;
    const enough = new Error('enough');
    const pause = async (): Promise<void> => {
      pauses += 1;
      throw enough;
    };
    await expect(feedQuestion(at('60 %'), undefined, pause)).rejects.toBe(enough);
    expect(pauses).toBe(1);
  });
});
