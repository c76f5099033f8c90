import type { Problem } from '../../problem.js';

/** What was refused or noted, each with how to mend it. */
export const Problems = ({ problems }: { problems: readonly Problem[] }) =>
  problems.length === 0 ? null : (
    <ul class="problems">
      {problems.map((problem, i) => (
        <li key={i} class={problem.severity}>
          <strong>{placeOf(problem)}</strong> found {problem.found}; expected {problem.expected}. {problem.fix}
        </li>
      ))}
    </ul>
  );

const placeOf = ({ where }: Problem): string => {
  const place = [where.file, where.line === undefined ? undefined : `line ${where.line}`].filter(Boolean).join(', ');
  // an option of the command line is a field here, and the problem stands beside it
  const field = where.field && !where.field.startsWith('--') ? ` (${where.field})` : '';
  return place || field ? `${place}${field}:` : '';
};
