import type { Problem } from '../problem.js';
import { schemaId } from '../report/schema-id.js';
import { plainText, wrap } from '../report/wrap.js';

/** Every problem on its own few lines: where and what, what was expected, how to mend it. */
export function problemText(problems: readonly Problem[]): string {
  return problems.map((p) => oneProblem(p)).join('');
}

/** The object printed with --json when the input is refused. */
export function refusedObject(command: string, problems: readonly Problem[]) {
  return { schema: schemaId(command), status: 'refused' as const, problems };
}

function oneProblem(p: Problem): string {
  const place = [p.where.file, p.where.line].filter((part) => part !== undefined).join(':');
  const field = p.where.field === undefined ? '' : place === '' ? p.where.field : ` (${p.where.field})`;
  const grade = p.severity === 'warning' ? 'note: ' : '';
  const where = `${place}${field}`.trim();
  const head = `${where === '' ? '' : `${where}: `}${grade}found ${p.found}`;
  const rest = [`expected ${p.expected}`, p.fix].filter((line) => line.trim() !== '');
  const lines = [
    ...wrap(plainText(head), 80),
    ...rest.flatMap((line) => wrap(plainText(line), 76).map((l) => `    ${l}`)),
  ];
  return `${lines.join('\n')}\n`;
}
