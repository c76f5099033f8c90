import { createInterface, type Interface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';
import type { Io } from './io.js';

/** How long lines of one paste may be apart, ms. */
const ONE_PASTE = 60;

/** A person at a terminal who can be asked; the terminal is held from the first question until it is given back. */
export function personAt(input: Readable, output: Writable): { ask: NonNullable<Io['ask']>; giveBack: () => void } {
  let lines: Lines | undefined;
  return {
    ask: async (text, block) => {
      lines ??= new Lines(createInterface({ input, output }));
      output.write(`${text}> `);
      const first = await lines.next();
      if (first === null || !block) return first;
      const said = [first];
      // an empty line inside a paste ends nothing: the rest of it is there already
      while (said.at(-1)!.trim() !== '' || (await lines.more(ONE_PASTE))) {
        const line = await lines.next();
        if (line === null) break;
        said.push(line);
      }
      return said.join('\n').trim();
    },
    giveBack: () => lines?.close(),
  };
}

/** Lines as they come, kept until they are asked for: a paste brings many at once. */
class Lines {
  private readonly kept: string[] = [];
  private ended = false;
  private wake = (): void => {};

  constructor(private readonly from: Interface) {
    from.on('line', (line) => {
      this.kept.push(line);
      this.wake();
    });
    from.on('SIGINT', () => from.close());
    from.on('close', () => {
      this.ended = true;
      this.wake();
    });
  }

  /** The next line; null after the last. */
  async next(): Promise<string | null> {
    while (this.kept.length === 0 && !this.ended) await new Promise<void>((done) => (this.wake = done));
    return this.kept.shift() ?? null;
  }

  /** True where another line is there within so many ms. */
  async more(ms: number): Promise<boolean> {
    if (this.kept.length === 0 && !this.ended)
      await new Promise<void>((done) => {
        this.wake = done;
        setTimeout(done, ms);
      });
    return this.kept.length > 0;
  }

  close(): void {
    this.from.close();
  }
}
