import { useOwnId } from './use-own-id.js';

/** A wish along a line; at its own end, or put back, it is as the bench says. */
export function Slider({
  name,
  value,
  least,
  most,
  step,
  words,
  onMove,
  onBack,
}: {
  name: string;
  value: number;
  least: number;
  most: number;
  step: number;
  /** What it stands at, in words. */
  words: string;
  onMove: (value: number) => void;
  /** Absent where it is as the bench says already. */
  onBack?: (() => void) | undefined;
}) {
  const id = useOwnId();
  return (
    <div class="slider">
      <label for={id}>{name}</label>
      <output for={id}>{words}</output>
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={step}
        value={value}
        aria-valuetext={words}
        onInput={(event) => onMove(event.currentTarget.valueAsNumber)}
      />
      <button type="button" class="small" disabled={!onBack} onClick={onBack} aria-label={`Back to the bench: ${name}`}>
        Back
      </button>
    </div>
  );
}
