import { useState } from 'preact/hooks';
import type { Problem } from '../../problem.js';
import { say } from '../actions.js';
import { Refused } from '../asking.js';
import { asValue, setValue, writtenAt } from '../edit/bench.js';
import { Field } from '../parts/field.js';
import { Problems } from '../parts/problems.js';
import type { PlaceProps } from './place.js';

/** The water: one of the catalog's by its name, the supplier's analysis, or what the pen shows of it. */
export function WaterFields({
  state,
  desk,
  text,
  waters,
  problems,
}: PlaceProps & {
  text: string;
  waters: readonly { id: string; name: string }[];
  problems: readonly Problem[];
}) {
  const [reading, setReading] = useState('');
  const [told, setTold] = useState<{ says: string; problems: readonly Problem[] }>({ says: '', problems: [] });
  const written = writtenAt(text, ['water']);
  const set = (value: string, undo?: string): void =>
    desk.change((s) => setValue(s, ['water'], value, desk.now(), undo));
  async function byPen(): Promise<void> {
    try {
      const { id, says } = await desk.asking.once('water', { texts: state.kept.texts, reading });
      set(`{ use: ${asValue(id)} }`, 'The water was taken by what the pen shows');
      setTold({ says, problems: [] });
      desk.change((s) => say(s, says));
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      setTold({ says: fault.problems.length === 0 ? fault.message : '', problems: fault.problems });
    }
  }
  return (
    <>
      <div class="pair">
        <Field
          name="Water"
          value={writtenAt(text, ['water', 'use']) || written}
          choices={waters}
          problems={problems}
          onSet={(id) => set(`{ use: ${asValue(id)} }`)}
        />
        <Field
          name="Or its analysis, in mg/L"
          value={written}
          hint="As your supplier states it, such as { Ca: 40, Mg: 11, alkalinity: 130 }"
          onSet={set}
        />
      </div>
      <form
        class="row"
        onSubmit={(event) => {
          event.preventDefault();
          if (reading.trim() !== '') void byPen();
        }}
      >
        <label class="field">
          Or what your pen shows of the plain water, such as 60 ppm or 120 µS
          <input
            type="text"
            autocomplete="off"
            value={reading}
            onInput={(event) => setReading(event.currentTarget.value)}
          />
        </label>
        <button type="submit">Take this water</button>
      </form>
      {told.says !== '' && <p class="quiet">{told.says}.</p>}
      <Problems problems={told.problems} />
    </>
  );
}
