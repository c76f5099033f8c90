import { unzipSync, zipSync } from 'fflate';
import { type BenchTexts, FILE_NAMES, type FileName } from './state.js';
import type { Table } from './table.js';

/** What was found in files that were brought in: the texts to take, and what is to be known about the rest. */
export interface Taken {
  texts: BenchTexts;
  notes: string[];
}

/** All files of the bench as one zip, byte for byte as they are kept. */
export function zipOf(texts: BenchTexts): Uint8Array {
  const files = FILE_NAMES.flatMap((name) => {
    const text = texts[name];
    return text === undefined ? [] : [[name, new TextEncoder().encode(text)] as const];
  });
  // the same files always make the same zip; the format knows no time before 1980
  return zipSync(Object.fromEntries(files), { mtime: '1980-01-01T00:00:00' });
}

/** A bench is a page of text; this is a hundred of them. */
const MOST_BYTES = 5_000_000;

/**
 * Reads files, and those inside of zips, by their names.
 * @param meant what a file that is no zip is, whatever it is called
 */
export async function readDropped(files: readonly File[], meant?: FileName): Promise<Taken> {
  const found: [string, Uint8Array][] = [];
  const notes: string[] = [];
  for (const file of files) {
    if (file.size > MOST_BYTES) {
      notes.push(`${file.name} is too large to be a bench: left out.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (!/\.zip$/i.test(file.name)) found.push([meant ?? file.name, bytes]);
    else {
      try {
        const small = { filter: ({ originalSize }: { originalSize: number }) => originalSize <= MOST_BYTES };
        found.push(...Object.entries(unzipSync(bytes, small)));
      } catch {
        notes.push(`${file.name} cannot be unpacked: is it a zip?`);
      }
    }
  }
  const texts: { [Name in FileName]?: string } = {};
  for (const [path, bytes] of found) {
    const name = FILE_NAMES.find((known) => path.split(/[/\\]/).at(-1) === known);
    if (name === undefined) {
      if (!path.endsWith('/')) notes.push(`${path} is no file of a bench: left out.`);
      continue;
    }
    const text = textOf(bytes);
    if (text === null) notes.push(`${path} is not UTF-8 text: save it as UTF-8 first.`);
    else if (texts[name] !== undefined) notes.push(`${name} is there twice: the first one counts.`);
    else texts[name] = text;
  }
  if (Object.keys(texts).length === 0) notes.push('There is no bench.yaml, shelf.csv or journal.csv in it.');
  return { texts, notes };
}

/**
 * Reads a table beside the bench, without a byte-order mark. @param as what tells it from a file of the bench that is called the same
 * @returns a sentence where it cannot be read
 */
export async function readTable(file: File, as: string): Promise<Table | string> {
  if (file.size > MOST_BYTES) return `${file.name} is too large to be such a table.`;
  const text = textOf(new Uint8Array(await file.arrayBuffer()));
  if (text === null) return `${file.name} is not UTF-8 text: save it as UTF-8 first.`;
  const isOfBench = FILE_NAMES.some((name) => name === file.name);
  return { name: isOfBench ? `${as} ${file.name}` : file.name, text: text.replace(/^\uFEFF/, '') };
}

/** The text, byte for byte: a byte-order mark stays. Null where it is no UTF-8. */
function textOf(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Hands a file to the browser's own way of saving. */
export function download(name: string, bytes: Uint8Array): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>]));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
