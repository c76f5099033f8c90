import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the installed package: found from src/ and from dist/ alike by its package.json. */
export function packageHome(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  for (;;) {
    const file = join(folder, 'package.json');
    if (existsSync(file) && readPackage(file).name === 'velamen') return folder;
    const parent = dirname(folder);
    if (parent === folder) throw new Error('the package.json of velamen is not above its own files');
    folder = parent;
  }
}

/** The version of the installed package. */
export function packageVersion(): string {
  return readPackage(join(packageHome(), 'package.json')).version;
}

function readPackage(file: string): { name: string; version: string } {
  return JSON.parse(readFileSync(file, 'utf8')) as { name: string; version: string };
}
