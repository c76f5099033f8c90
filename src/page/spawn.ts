import type { Spawn } from './asking.js';

/** Starts the worker, which lies packed in the page: a file on disk may start one from a blob only. */
export const spawn: Spawn = async (heard, failed) => {
  code ??= unpacked(document.getElementById('worker')?.textContent?.trim() ?? '');
  const worker = new Worker(URL.createObjectURL(await code), { name: 'velamen' });
  worker.onmessage = ({ data }) => heard(data);
  worker.onerror = ({ message }) => failed(message || 'the worker could not start');
  return { tell: (told) => worker.postMessage(told), end: () => worker.terminate() };
};

let code: Promise<Blob> | undefined;

/** Characters unpacked at once, in whole groups of four: a few ms, so that a tap in between is heard. */
const PIECE = 4 * 2 ** 15;

async function unpacked(packed: string): Promise<Blob> {
  let at = 0;
  const bytes = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(into) {
      if (at >= packed.length) {
        into.close();
        return;
      }
      await new Promise((done) => setTimeout(done));
      const chars = atob(packed.slice(at, at + PIECE));
      const piece = new Uint8Array(chars.length);
      for (let i = 0; i < chars.length; i += 1) piece[i] = chars.charCodeAt(i);
      at += PIECE;
      into.enqueue(piece);
    },
  });
  const text = await new Response(bytes.pipeThrough(new DecompressionStream('gzip'))).blob();
  return new Blob([text], { type: 'text/javascript' });
}
