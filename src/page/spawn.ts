/** Starts the worker, which lies packed in the page: a file on disk may start one from a blob only. */
export async function spawn(): Promise<Worker> {
  code ??= unpacked(document.getElementById('worker')?.textContent ?? '');
  return new Worker(URL.createObjectURL(await code), { name: 'velamen' });
}

let code: Promise<Blob> | undefined;

async function unpacked(packed: string): Promise<Blob> {
  const bytes = Uint8Array.from(atob(packed), (char) => char.charCodeAt(0));
  const text = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).text();
  return new Blob([text], { type: 'text/javascript' });
}
