import { wrap } from '../report/wrap.js';

/** A command line that can be copied; a long one goes on after a backslash. */
export function commandLines(line: string): string[] {
  const lines: string[] = [];
  for (const part of line.split(/ (?=--)/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + part.length + 1 <= 74) lines[lines.length - 1] = `${last} ${part}`;
    else lines.push(part);
  }
  return lines.map((part, i) => `  ${i > 0 ? '  ' : ''}${part}${i < lines.length - 1 ? ' \\' : ''}`);
}

/** Names on the left, what they mean on the right. */
export function twoColumns(rows: readonly (readonly [string, string])[]): string[] {
  const gutter = Math.min(28, Math.max(...rows.map(([name]) => name.length)) + 4);
  return rows.flatMap(([name, says]) => {
    const lines = wrap(says, 80 - gutter);
    const first = `  ${name}`;
    if (first.length > gutter - 2) return [first, ...lines.map((line) => ' '.repeat(gutter) + line)];
    return lines.map((line, i) => (i === 0 ? first : '').padEnd(gutter) + line);
  });
}
