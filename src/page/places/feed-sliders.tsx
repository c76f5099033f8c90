import { remember, tune } from '../actions.js';
import { setValue } from '../edit/bench.js';
import { Slider } from '../parts/slider.js';
import type { Answered } from '../state.js';
import type { PlaceProps } from './place.js';

/**
 * Strength, ammonium and nearness, worked out anew as they move.
 * @param doses how far their doses are; null where those that are shown are theirs
 * @param isNear whether the figures are those of the nearest mix by now
 */
export function Sliders({
  state,
  desk,
  strength,
  feed,
  doses,
  isNear,
}: PlaceProps & { strength: number | null; feed: string; doses: Answered['status'] | null; isNear: boolean }) {
  const { tuned } = state.remembered;
  const share = (text: string | undefined): number | null => (text === undefined ? null : Number.parseFloat(text));
  const strong = share(tuned.strength);
  const nh4 = share(tuned.nh4);
  const near = share(tuned.near);
  const wish = (key: 'strength' | 'nh4' | 'near', value: number | null): void =>
    desk.change((s) => {
      const { [key]: _, ...rest } = s.remembered.tuned;
      return value === null ? remember(s, 'tuned', rest) : tune(s, { [key]: `${value} %` });
    });
  const keep = (): void => {
    if (strong === null) return;
    desk.change((s) => {
      const { strength: _, ...rest } = s.remembered.tuned;
      const kept = setValue(s, ['feeds', feed, 'strength'], `${strong} %`, desk.now(), `${feed} is fed at ${strong} %`);
      return kept.kept === s.kept ? kept : remember(kept, 'tuned', rest);
    });
  };
  return (
    <article>
      <h3>What if</h3>
      <Follows desk={desk} doses={doses} isNear={isNear} />
      <Slider
        name="Strength"
        least={20}
        most={150}
        step={5}
        value={strong ?? Math.round(100 * (strength ?? 1))}
        words={strong === null ? 'as the bench says' : `${strong} %`}
        onMove={(value) => wish('strength', value)}
        onBack={strong === null ? undefined : () => wish('strength', null)}
      />
      {strong !== null && tuned.way !== 'one' && (
        <button type="button" onClick={keep}>
          Write {strong} % into the bench
        </button>
      )}
      <Slider
        name="Ammonium, at most"
        least={0}
        most={50}
        step={5}
        value={nh4 ?? 50}
        words={nh4 === null ? 'what the plants bear' : `${nh4} % of the nitrogen`}
        onMove={(value) => wish('nh4', value)}
        onBack={nh4 === null ? undefined : () => wish('nh4', null)}
      />
      {tuned.way !== 'bare' && tuned.way !== 'closest' && (
        <Slider
          name="Nearness to the aims"
          least={5}
          most={100}
          step={5}
          value={near ?? 35}
          words={near === null ? 'as usual, within 35 %' : `within ${near} %`}
          onMove={(value) => wish('near', value)}
          onBack={near === null ? undefined : () => wish('near', null)}
        />
      )}
    </article>
  );
}

/** What stands on the page while a slider moves, and how far the doses are: always as high, so that nothing moves away under a thumb. */
const Follows = ({
  desk,
  doses,
  isNear,
}: {
  desk: PlaceProps['desk'];
  doses: Answered['status'] | null;
  isNear: boolean;
}) => (
  <div class="follows">
    <p>{followsSays(doses, isNear)}</p>
    <button type="button" class="small" hidden={doses !== 'asking'} onClick={() => desk.asking.stop('feed')}>
      Stop
    </button>
  </div>
);

function followsSays(doses: Answered['status'] | null, isNear: boolean): string {
  if (doses === null) return 'The figures follow as a slider moves; the doses of your kit once it rests.';
  const figures = isNear ? 'the figures are those of the nearest mix' : 'the figures are those of before';
  if (doses === 'stopped') return `Stopped: ${figures}. Move a slider for its doses.`;
  if (doses === 'asking') return `Working out the doses… Till then ${figures}.`;
  return `Now ${figures}; the doses follow once the slider rests.`;
}
