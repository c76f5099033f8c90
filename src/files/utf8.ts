import { problem, Refusal } from '../problem.js';

/** UTF-8 bytes as text. @throws Refusal naming the line of the first byte that is not UTF-8. */
export function decode(bytes: Uint8Array, name: string): string {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    throw new Refusal([problem('not-utf-8', { file: name, line: 1 }, 'a UTF-16 file', 'UTF-8 text', SAVE_AS)]);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const line = lineOfFirstBadByte(bytes);
    const sample = new TextDecoder('latin1').decode(bytes).split(/\r?\n/)[line - 1] ?? '';
    const found = `bytes that are not UTF-8 (read as Latin-1 the line says "${sample.trim().slice(0, 60)}")`;
    throw new Refusal([problem('not-utf-8', { file: name, line }, found, 'UTF-8 text', SAVE_AS)]);
  }
}

const SAVE_AS = 'Save the file again as UTF-8 (a spreadsheet calls it "CSV UTF-8").';

function lineOfFirstBadByte(bytes: Uint8Array): number {
  const strict = new TextDecoder('utf-8', { fatal: true });
  let line = 1;
  let start = 0;
  for (let i = 0; i <= bytes.length; i += 1) {
    if (i < bytes.length && bytes[i] !== 0x0a) continue;
    try {
      strict.decode(bytes.subarray(start, i));
    } catch {
      return line;
    }
    start = i + 1;
    line += 1;
  }
  return 1;
}
