import { useState } from 'preact/hooks';
import { withText } from '../actions.js';
import type { PlaceProps } from '../places/place.js';
import type { Table } from '../table.js';
import type { BenchTexts } from '../texts.js';
import type { ToolName } from '../work/tools.js';
import { Blocks } from './blocks.js';
import { Field } from './field.js';
import { More } from './more.js';
import { Problems } from './problems.js';
import { useAnswer } from './use-answer.js';
import { Waiting } from './waiting.js';

type Words = Readonly<Record<string, string>>;

export interface ToolProps extends PlaceProps {
  tool: ToolName;
  title: string;
  /** What is asked, in words. */
  fields: readonly { key: string; name: string; usual?: string; choices?: readonly { id: string; name: string }[] }[];
  button: string;
  /** The wishes that the fields stand for, as the command line would say them. */
  wishes: (words: Words) => Readonly<Record<string, unknown>>;
  /** Another table that it is asked with. */
  beside?: Table | null;
  /** Tools of one kind beside each other are told apart. */
  of?: string;
}

/** A question beside the main one of a place: its fields, a button, the report. */
export const Tool = (props: ToolProps) => <More title={props.title}>{() => <Asked {...props} />}</More>;

function Asked({ tool, fields, button, wishes, beside, of = '', ...props }: ToolProps) {
  const { state, desk } = props;
  const [words, setWords] = useState<Words>(() =>
    Object.fromEntries(fields.map(({ key, usual = '' }) => [key, usual])),
  );
  const [asked, setAsked] = useState<{ texts: BenchTexts; tool: ToolName; wishes: object; beside?: Table } | null>(
    null,
  );
  const channel = `tool ${tool} ${of}`;
  const set = (key: string, value: string): void => setWords((before) => ({ ...before, [key]: value }));
  const { texts } = state.kept;
  const answer = useAnswer(props, channel, 'tool', asked);
  const view = asked !== null && answer.isCurrent && answer.status === 'answered' ? answer.answer : undefined;
  const isWritten = view?.shelf !== null && view?.shelf === texts['shelf.csv'];
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        setAsked({ texts, tool, wishes: wishes(words), ...(beside ? { beside } : {}) });
      }}
    >
      <div class="pair">
        {fields.map(({ key, name, choices }) => (
          <Field
            key={key}
            name={name}
            value={words[key] ?? ''}
            {...(choices ? { choices } : {})}
            onSet={(value) => set(key, value)}
          />
        ))}
      </div>
      <button type="submit">{button}</button>
      {asked !== null && view === undefined && <Waiting answer={answer} desk={desk} channel={channel} />}
      {view && (
        <div aria-live="polite">
          <p class={view.met ? 'answer' : 'answer off'}>{view.title}</p>
          <Problems problems={view.warnings} />
          <Blocks blocks={view.blocks} />
          {view.shelf !== null && !isWritten && (
            <button
              type="button"
              class="main"
              onClick={() =>
                desk.change((s) =>
                  withText(s, 'shelf.csv', view.shelf!, desk.now(), 'What a spoon weighs was written onto the shelf'),
                )
              }
            >
              Write it onto the shelf
            </button>
          )}
        </div>
      )}
    </form>
  );
}
