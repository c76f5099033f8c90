import { useEffect, useState } from 'preact/hooks';
import type { Problem } from '../../problem.js';
import { Problems } from './problems.js';
import { useOwnId } from './use-own-id.js';

export interface FieldProps {
  name: string;
  /** As it is written now. */
  value: string;
  hint?: string;
  /** What may stand there, where it is one of a few. */
  choices?: readonly { id: string; name: string }[];
  /** What is wrong with it, shown beside it. */
  problems?: readonly Problem[];
  lines?: number;
  onSet: (value: string) => void;
}

/** One value with its name, what is meant, and what is wrong with it. What is typed counts when the field is left. */
export function Field({ name, value, hint, choices, problems = [], lines, onSet }: FieldProps) {
  const id = useOwnId();
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const told = [...(hint ? [`${id}-hint`] : []), ...(problems.length > 0 ? [`${id}-wrong`] : [])].join(' ');
  const shared = {
    id,
    value: typed,
    'aria-describedby': told || undefined,
    'aria-invalid': problems.some(({ severity }) => severity === 'error') || undefined,
  };
  // what is being typed outlives whatever is shown anew meanwhile
  const type = (event: { currentTarget: { value: string } }): void => setTyped(event.currentTarget.value);
  const set = (next: string): void => {
    setTyped(next);
    if (next !== value) onSet(next);
  };
  return (
    <div class="field">
      <label for={id}>{name}</label>
      {choices ? (
        <select {...shared} onChange={(event) => set(event.currentTarget.value)}>
          {!choices.some((choice) => choice.id === value) && <option value={value}>{value}</option>}
          {choices.map((choice) => (
            <option key={choice.id} value={choice.id}>
              {choice.name}
            </option>
          ))}
        </select>
      ) : lines ? (
        <textarea
          {...shared}
          rows={lines}
          spellcheck={false}
          onInput={type}
          onChange={(event) => set(event.currentTarget.value)}
        />
      ) : (
        <input
          {...shared}
          type="text"
          autocomplete="off"
          onInput={type}
          onChange={(event) => set(event.currentTarget.value)}
        />
      )}
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {problems.length > 0 && (
        <div id={`${id}-wrong`}>
          <Problems problems={problems} />
        </div>
      )}
    </div>
  );
}
