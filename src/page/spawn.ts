/** Starts the worker, which lies packed in the page: a file on disk may start one from a blob only. */
export async function spawn(): Promise<Worker> {
  code ??= unpacked(document.getElementById('worker')?.textContent ?? '');
  return new Worker(URL.createObjectURL(await code), { name: 'velamen' });
}

let code: Promise<Blob> | undefined;

async function unpacked(packed: string): Promise<Blob> {
  const chars = atob(packed);
  const bytes = new Uint8Array(chars.length);
  // a loop by hand: through an iterator it holds the page up for a tenth of a second
  for (let i = 0; i < chars.length; i += 1) bytes[i] = chars.charCodeAt(i);
  const text = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).text();
  return new Blob([text], { type: 'text/javascript' });
}
