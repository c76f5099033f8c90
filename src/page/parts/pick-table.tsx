import { useState } from 'preact/hooks';
import type { Problem } from '../../problem.js';
import { readTable } from '../exchange.js';
import type { Table } from '../table.js';
import { Problems } from './problems.js';
import { useOwnId } from './use-own-id.js';

/** A table beside the bench, picked or dropped here; what is wrong with it stands beside it. */
export function PickTable({
  name,
  hint,
  as,
  picked,
  problems,
  onPick,
}: {
  name: string;
  hint: string;
  /** What tells it from a file of the bench that is called the same: `market`. */
  as: string;
  picked: Table | null;
  problems: readonly Problem[];
  onPick: (table: Table | null) => void;
}) {
  const id = useOwnId();
  const [why, setWhy] = useState('');
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const read = await readTable(file, as);
    setWhy(typeof read === 'string' ? read : '');
    if (typeof read !== 'string') onPick(read);
  };
  return (
    <div class="field">
      <label for={id}>{name}</label>
      <input
        id={id}
        type="file"
        accept=".csv"
        aria-describedby={`${id}-hint`}
        onDrop={(event) => {
          // what is dropped anywhere else goes to the files of the bench
          event.preventDefault();
          event.stopPropagation();
          void take(event.dataTransfer?.files[0]);
        }}
        onChange={(event) => {
          void take(event.currentTarget.files?.[0]);
        }}
      />
      <p class="hint" id={`${id}-hint`}>
        {hint}
      </p>
      <div aria-live="polite">
        {why !== '' && <p class="bad">{why}</p>}
        {picked && (
          <p>
            {picked.name}, {picked.text.trim().split('\n').length} lines, for this visit: it is not one of the files of
            the bench.{' '}
            <button type="button" onClick={() => onPick(null)}>
              Put it away
            </button>
          </p>
        )}
        <Problems problems={problems} />
      </div>
    </div>
  );
}
