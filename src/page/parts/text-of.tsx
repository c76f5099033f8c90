import type { Problem } from '../../problem.js';
import { withText } from '../actions.js';
import type { Desk } from '../desk.js';
import type { FileName, State } from '../state.js';
import { Field } from './field.js';

/** A file as its text, for what no field holds. */
export const TextOf = ({
  file,
  state,
  desk,
  problems,
}: {
  file: FileName;
  state: State;
  desk: Desk;
  problems: readonly Problem[];
}) => (
  <details>
    <summary>{file} as a text</summary>
    <Field
      name={`The text of ${file}`}
      value={state.kept.texts[file] ?? ''}
      lines={16}
      problems={problems}
      onSet={(text) => desk.change((s) => withText(s, file, text, desk.now(), `${file} was changed as a text`))}
    />
  </details>
);
