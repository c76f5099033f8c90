import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** highs with its .wasm file inside, so that it needs no file beside it, neither in Node nor in a page. */
export const highsInside = {
  name: 'highs-inside',
  setup({ onResolve, onLoad }) {
    const folder = join(import.meta.dirname, 'node_modules/highs/build');
    onResolve({ filter: /^highs$/ }, ({ importer }) => ({ path: importer, namespace: 'highs-inside' }));
    onResolve({ filter: /^highs-itself$/ }, () => ({ path: join(folder, 'highs.mjs') }));
    // in Node it asks for parts of Node in its own way; a page never gets there
    onResolve({ filter: /^node:module$/ }, ({ importer }) =>
      importer.startsWith(folder) ? { path: 'built-in', namespace: 'highs-inside' } : undefined,
    );
    onLoad({ filter: /^built-in$/, namespace: 'highs-inside' }, () => ({
      contents: 'export const createRequire = () => (name) => process.getBuiltinModule(name);',
    }));
    onLoad({ filter: /./, namespace: 'highs-inside' }, () => {
      const packed = gzipSync(readFileSync(join(folder, 'highs.wasm')), { level: 9 }).toString('base64');
      return {
        resolveDir: import.meta.dirname,
        contents: `import load from 'highs-itself';
          const packed = '${packed}';
          async function compiled() {
            const zlib = globalThis.process?.getBuiltinModule?.('node:zlib');
            if (zlib) return WebAssembly.compile(zlib.gunzipSync(Buffer.from(packed, 'base64')));
            const bytes = Uint8Array.from(atob(packed), (char) => char.charCodeAt(0));
            const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
            return WebAssembly.compile(await new Response(unpacked).arrayBuffer());
          }
          let once;
          export default async () => {
            const module = await (once ??= compiled());
            return new Promise((resolve, reject) => {
              const instantiateWasm = (imports, done) => void WebAssembly.instantiate(module, imports).then(done, reject);
              load({ instantiateWasm }).then(resolve, reject);
            });
          };`,
      };
    });
  },
};
